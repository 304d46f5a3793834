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

/** Circuits, line names, structures and splices by their names, or the place that coordinates name (latitude first). */
export async function searchStore(scope: Scope, query: string, db: Db = database()): Promise<SearchItem[]> {
  const text = query.trim().slice(0, 100)
  if (text === '') return []
  const place = parseCoordinates(text)
  if (place) return [{ kind: 'place', id: 0, label: `${place.lat.toFixed(5)}, ${place.lon.toFixed(5)}`, detail: 'Latitude, longitude', circuits: [], ...place }]
  const named = text.replace(/^(str|structure|splice|circuit)\.?\s+/i, '')
  const ask = (name: string) => db.rows<Omit<SearchItem, 'bbox'> & { bbox: SearchItem['bbox'] | null }>(searchQuestion(scope, name, PER_KIND))
  const found = await ask(named)
  const [, back] = SPAN.exec(named) ?? []
  const rows = found.length > 0 || back === undefined ? found : await ask(back)
  return rows.map(({ bbox, ...item }) => (bbox ? { ...item, bbox } : item))
}
