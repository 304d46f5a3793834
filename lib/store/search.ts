import { parseCoordinates } from './coordinates'
import type { Scope } from './scope'
import { searchQuestion } from './sql/search'
import { database, type Db } from './transaction'

export interface SearchItem {
  kind: 'circuit' | 'structure' | 'splice' | 'place'
  /** Zero for a place, which is in no table. */
  id: number
  label: string
  detail: string | null
  circuits: string[]
  lon: number
  lat: number
  bbox?: [number, number, number, number]
}

const PER_KIND = 8
/** 'STR 45-46 + 404 ft' as places are written: the structure that the span is counted from. */
const SPAN = /^([\w/]+)\s*[-–]\s*[\w/]+/
/** '2310 091', '2310 STR 45-46': a circuit and what stands on it, as people say it. */
const ON_CIRCUIT = /^([^\s,]+)[\s,]+(\S.*)$/
const KIND = /^(str|structure|splice|circuit)\.?\s+/i
/** A structure number may stand on every line there is. */
const ON_ALL_CIRCUITS = 500

type FoundRow = Omit<SearchItem, 'bbox'> & { bbox: SearchItem['bbox'] | null }

/** Circuits, line names, structures and splices by their names, or the place that coordinates name (latitude first). */
export async function searchStore(scope: Scope, query: string, db: Db = database()): Promise<SearchItem[]> {
  const text = query.trim().slice(0, 100)
  if (text === '') return []
  const place = parseCoordinates(text)
  if (place) return [{ kind: 'place', id: 0, label: `${place.lat.toFixed(5)}, ${place.lon.toFixed(5)}`, detail: 'Latitude, longitude', circuits: [], ...place }]
  const named = text.replace(KIND, '')
  const ask = (name: string, limit = PER_KIND) => db.rows<FoundRow>(searchQuestion(scope, name, limit))
  const plain = ({ bbox, ...item }: FoundRow): SearchItem => (bbox ? { ...item, bbox } : item)
  const found = await ask(named)
  if (found.length > 0) return found.map(plain)
  const back = SPAN.exec(named)?.[1]
  if (back !== undefined) return (await ask(back)).map(plain)
  const [, circuit = '', rest = ''] = ON_CIRCUIT.exec(named) ?? []
  const there = rest === '' ? [] : await ask(SPAN.exec(rest.replace(KIND, ''))?.[1] ?? rest.replace(KIND, ''), ON_ALL_CIRCUITS)
  return there.filter((item) => item.circuits.some((name) => name.toLowerCase() === circuit.toLowerCase())).slice(0, PER_KIND).map(plain)
}
