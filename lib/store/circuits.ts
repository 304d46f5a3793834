import type { CircuitSummary } from '@/lib/contract/contract'
import type { Scope } from './scope'
import { circuitCrossings, circuitPhasing, circuitSections, circuitSummaries } from './sql/circuit-summary'
import { database, type Db } from './transaction'

export interface CircuitSection {
  id: number
  name: string
  from: string | null
  to: string | null
  conductor: string | null
  subconductors: number
  rating_a: number | null
  rating_emergency_a: number | null
  max_operating_c: number | null
  lateral_offset_m: number | null
  length_m: number
  declared_length_m: number | null
  structure_count: number
  span_count: number
}

export interface CircuitDetail extends CircuitSummary {
  sections: CircuitSection[]
  crossings: { id: number; line_distance_m: number; kind: string; name: string | null }[]
  phasing: { structure_from: string; structure_to: string; position: string; phase: string }[]
}

/** Every circuit within the scope, the worst first. */
export async function listCircuits(scope: Scope, db: Db = database()): Promise<CircuitSummary[]> {
  return db.rows<CircuitSummary>(circuitSummaries(scope))
}

/** One circuit with its sections, crossings and phasing; undefined where there is none within the scope. */
export async function getCircuit(scope: Scope, id: number, db: Db = database()): Promise<CircuitDetail | undefined> {
  const summary = await db.row<CircuitSummary>(circuitSummaries(scope, id))
  if (!summary) return undefined
  const [sections, crossings, phasing] = await Promise.all([
    db.rows<CircuitSection>(circuitSections(scope, id)),
    db.rows<CircuitDetail['crossings'][number]>(circuitCrossings(scope, id)),
    db.rows<CircuitDetail['phasing'][number]>(circuitPhasing(scope, id)),
  ])
  return { ...summary, sections, crossings, phasing }
}
