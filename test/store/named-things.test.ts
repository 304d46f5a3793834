import { beforeAll, describe, expect, it } from 'vitest'
import { GET as readings } from '@/app/api/v1/readings/route'
import { GET as splices } from '@/app/api/v1/splices/route'
import { listCircuits } from '@/lib/store/circuits'
import { useDatabase } from './database'
import { csv, importText, lineFeature, linesFile, reading, scope } from './utility'

useDatabase()

const context = { params: Promise.resolve({}) }
const ask = async (handler: typeof splices, address: string) => {
  const response = await handler(new Request(`http://127.0.0.1:3000${address}`), context)
  return { status: response.status, body: await response.json() as { code?: string; detail?: string; remedy?: string; items?: unknown[] } }
}

let id = 0
beforeAll(async () => {
  await importText('lines', linesFile([lineFeature('2310', 5_000)]))
  await importText('readings', csv([reading('a', 450)]), { survey: 'Spring' })
  id = (await listCircuits(scope))[0]?.id ?? 0
})

describe('a list that is filtered by a thing', () => {
  it('takes its id', async () => {
    const { status, body } = await ask(splices, `/api/v1/splices?circuit=${id}`)
    expect([status, body.items?.length]).toEqual([200, 1])
  })

  it.each(['2310', '2310%20line', '2310%20LINE'])('names the id where %s is a name', async (text) => {
    const { status, body } = await ask(splices, `/api/v1/splices?circuit=${id},${text}`)
    expect([status, body.code]).toEqual([400, 'no-such-circuit'])
    expect(body.detail).toBe(`circuit is '${decodeURIComponent(text)}', which is no circuit's id. It is a name: circuit 2310 has the id ${id}.`)
    expect(body.remedy).toBe(`Ask with circuit=${id}.`)
  })

  it.each(['4711', 'x'])('says that %s is neither', async (text) => {
    const { status, body } = await ask(splices, `/api/v1/splices?circuit=${text}`)
    expect([status, body.code, body.detail]).toEqual([400, 'no-such-circuit', `circuit is '${text}', which is no circuit's id.`])
    expect(body.remedy).toContain('/api/v1/circuits')
  })

  it('knows its imports too', async () => {
    expect((await ask(readings, '/api/v1/readings?import=2')).body.items).toHaveLength(1)
    expect(await ask(readings, '/api/v1/readings?import=4711')).toMatchObject({ status: 400, body: { code: 'no-such-import' } })
    expect(await ask(readings, '/api/v1/readings?import=x')).toMatchObject({ status: 400, body: { code: 'invalid' } })
  })
})
