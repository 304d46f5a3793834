import type { SpliceFilter } from '@/lib/contract/filter'
import type { Scope } from './scope'
import { lineCircuits, lineCrossings, lineSpans, lineStructures, networkMark as markQuestion } from './sql/circuit-lines'
import { sharedSpans, spanAxes, splicePoints, tileVersions as versionsQuestion } from './sql/splice-points'
import { spliceCondition } from './sql/splice-filter'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

export interface LineCircuit { id: number; name: string; voltageKv: number | null }

export interface LineSpan {
  id: number
  sectionId: number
  circuitId: number
  /** Place within the section, from its named end. */
  ord: number
  structureBack: string | null
  structureAhead: string | null
  startM: number
  endM: number
  /** Of the section; left negative, looking ahead. */
  lateralOffsetM: number | null
  /** Flat lon,lat,… in degrees, shape points included. */
  lonLat: number[]
}

export interface LineStructure { id: number; label: string; lon: number; lat: number; type: string | null }

export interface LineCrossing { id: number; circuitId: number; lineDistanceM: number; kind: string; name: string | null }

/** The network as circuit tiles need it. */
export interface NetworkLines {
  circuits: LineCircuit[]
  /** In order of circuit, section, ord. */
  spans: LineSpan[]
  structures: LineStructure[]
  crossings: LineCrossing[]
}

/** Columns as the server packed them: see sql/splice-points. Null where there are no splices. */
export interface PackedSplices {
  /** Empty text: not confirmed. */
  phases: string[] | null
  id: Buffer | null
  lon: Buffer | null
  lat: Buffer | null
  class_no: Buffer | null
  /** Days since 1970 UTC by which a sound or watch one is to be measured again; 0 without a date. */
  renew_by_day: Buffer | null
  circuit_id: Buffer | null
  phase_no: Buffer | null
  span_id: Buffer | null
  names: Buffer | null
}

/** Bearings of the spans, packed alike. */
export interface PackedAxes { span_id: Buffer | null; axis_deg: Buffer | null }

/** A span between structures that another circuit's span joins too; of its line the two ends. */
export type SharedSpan = Pick<LineSpan, 'id' | 'circuitId' | 'lateralOffsetM' | 'lonLat'>

export interface PackedNetwork { splices: PackedSplices; axes: PackedAxes; shared: SharedSpan[]; circuits: LineCircuit[] }

export interface TileVersions { data_version: number; policy_version: number }

/** What every tile depends on beside its address and filter. */
export async function tileVersions(_scope: Scope, db: Db = database()): Promise<TileVersions> {
  return (await db.row<TileVersions>(versionsQuestion())) ?? { data_version: 0, policy_version: 0 }
}

/** Every splice in service within the scope, with the spans and circuits it hangs on. */
export async function packedSplices(scope: Scope, db: Db = database()): Promise<PackedNetwork> {
  const [splices, axes, shared, circuits] = await Promise.all([
    db.row<PackedSplices>(splicePoints(scope)), db.row<PackedAxes>(spanAxes(scope)),
    db.rows<SharedSpan>(sharedSpans(scope)), db.rows<LineCircuit>(lineCircuits(scope)),
  ])
  if (!splices || !axes) throw new Error('An aggregate gave no row, which PostgreSQL never does.')
  return { splices, axes, shared, circuits }
}

export async function networkLines(scope: Scope, db: Db = database()): Promise<NetworkLines> {
  const [circuits, spans, structures, crossings] = await Promise.all([
    db.rows<LineCircuit>(lineCircuits(scope)), db.rows<LineSpan>(lineSpans(scope)),
    db.rows<LineStructure>(lineStructures(scope)), db.rows<LineCrossing>(lineCrossings(scope)),
  ])
  return { circuits, spans, structures, crossings }
}

/** Equal marks: the lines of the network have not changed in between. */
export async function networkMark(scope: Scope, db: Db = database()): Promise<string> {
  return (await db.row<{ mark: string }>(markQuestion(scope)))?.mark ?? ''
}

/** Numbers of the splices in service that a filter lets through, packed by the server as `splicePoints` packs them. */
export async function idsThatPass(scope: Scope, filter: SpliceFilter, db: Db = database()): Promise<Int32Array> {
  const row = await db.row<{ ids: Buffer | null }>(sql`
    SELECT string_agg(int4send(s.id), '') AS ids
    FROM splice s JOIN splice_state st ON st.splice_id = s.id JOIN circuit c ON c.id = s.circuit_id WHERE ${spliceCondition(scope, filter)}`)
  const bytes = row?.ids
  return Int32Array.from({ length: (bytes?.length ?? 0) / 4 }, (_, i) => bytes?.readInt32BE(4 * i) ?? 0)
}
