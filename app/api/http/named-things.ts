import { circuitsCalled } from '@/lib/store/circuits'
import { getImport } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'
import { parseId } from './parse'
import { problemOf } from './problem'

const SHOWN = 50

/** 400 for a circuit in the query that there is none of: a list that nothing fits would say that its splices are none. */
export async function refuseUnknownCircuits(request: Request, scope: Scope): Promise<Response | null> {
  const given = new URL(request.url).searchParams.getAll('circuit').join(',')
  const texts = [...new Set(given.split(',').map((text) => text.trim()).filter(Boolean))].slice(0, SHOWN)
  if (texts.length === 0) return null
  const found = await circuitsCalled(scope, texts)
  const unknown = texts.filter((text) => parseId(text) === null || !found.some(({ id }) => id === parseId(text)))
  if (unknown.length === 0) return null
  return problemOf(400, 'no-such-circuit', unknown.map((text) => {
    const shown = text.length > 60 ? `${text.slice(0, 60)}…` : text
    const meant = found.filter((one) => [one.name, one.line_name].some((name) => name?.toLowerCase() === text.toLowerCase()))
    const message = `circuit is '${shown}', which is no circuit's id.`
    if (meant.length === 0) return { path: 'circuit', message, remedy: 'Take an id of /api/v1/circuits, or find it by /api/v1/search.' }
    const ids = meant.map(({ id, name }) => `circuit ${name} has the id ${id}`).join(', ')
    return { path: 'circuit', message: `${message} It is a name: ${ids}.`, remedy: `Ask with circuit=${meant.map(({ id }) => id).join(',')}.` }
  }))
}

/** 400 for an import in the query that there is none of. */
export async function refuseUnknownImport(request: Request, scope: Scope): Promise<Response | null> {
  const text = new URL(request.url).searchParams.get('import') ?? ''
  const id = parseId(text)
  if (id === null || await getImport(scope, id)) return null // what is no id at all is for the schema to say
  return problemOf(400, 'no-such-import', [{
    path: 'import', message: `import is '${text}', which is no import's id.`, remedy: 'Take an id of /api/v1/imports.',
  }])
}
