import { parseCoordinates } from './coordinates'
import type { Scope } from './scope'
import { findSpanMarks } from './span-marks'
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

export interface SearchAnswer {
  items: SearchItem[]
  /** What of the text keeps it from being one place, in a sentence with its quantities in braces: nobody is to go there unasked. */
  note?: string
}

/**
 * Circuits, line names, structures and splices by their names, the place that coordinates name (latitude first), or one along a span
 * ('STR 45-46 + 404 ft'). Lines number alike: places on the circuits of `firstCircuitIds` come first.
 */
export async function searchStore(scope: Scope, query: string, firstCircuitIds: readonly number[] = [], db: Db = database()): Promise<SearchAnswer> {
  const text = query.trim().slice(0, 100)
  if (text === '') return { items: [] }
  const place = parseCoordinates(text)
  if (place) return { items: [{ kind: 'place', id: 0, label: `${place.lat.toFixed(5)}, ${place.lon.toFixed(5)}`, detail: 'Latitude, longitude', circuits: [], ...place }] }
  const named = text.replace(KIND, '')
  const ask = (name: string, limit = PER_KIND) => db.rows<FoundRow>(searchQuestion(scope, name, limit))
  const plain = ({ bbox, ...item }: FoundRow): SearchItem => (bbox ? { ...item, bbox } : item)
  const found = await ask(named)
  if (found.length > 0) return { items: found.map(plain) }
  const along = await findSpanMarks(scope, named, firstCircuitIds, db)
  if (along && along.items.length > 0 && !along.isSpanAlone) return { items: along.items, ...(along.note === undefined ? {} : { note: along.note }) }
  const { rows, isPart } = await structuresNamed(named, ask)
  const items = [...(along?.items ?? []), ...rows.map(plain)]
  const note = along === undefined ? (isPart && rows.length > 0 ? PART_ONLY : undefined) : along.note
  return note === undefined ? { items } : { items, note }
}

const PART_ONLY = 'Only the structure was understood. A place along the span is written 45-46 + 123 m, or 123 m ahead of 45.'

/** The structures of one circuit, or those that a span begins with; `isPart` where more was typed than their names. */
async function structuresNamed(named: string, ask: (name: string, limit?: number) => Promise<FoundRow[]>): Promise<{ rows: FoundRow[]; isPart: boolean }> {
  const [, circuit = '', rest = ''] = ON_CIRCUIT.exec(named) ?? []
  const bare = rest.replace(KIND, '')
  const onSpan = SPAN.exec(bare)?.[1]
  const there = bare === '' ? [] : await ask(onSpan ?? bare, ON_ALL_CIRCUITS)
  const rows = there.filter((item) => item.circuits.some((name) => name.toLowerCase() === circuit.toLowerCase())).slice(0, PER_KIND)
  if (rows.length > 0) return { rows, isPart: onSpan !== undefined }
  const back = SPAN.exec(named)?.[1]
  return { rows: back === undefined ? [] : await ask(back), isPart: true }
}
