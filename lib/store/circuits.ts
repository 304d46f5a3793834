import type { CircuitJson } from '@/lib/contract/api'
import type { CircuitSummary } from '@/lib/contract/contract'
import type { Scope } from './scope'
import { circuitCrossings, circuitPhasing, circuitSections, circuitSummaries } from './sql/circuit-summary'
import { database, type Db } from './transaction'

/** Every circuit within the scope, the worst first. */
export async function listCircuits(scope: Scope, db: Db = database()): Promise<CircuitSummary[]> {
  return db.rows<CircuitSummary>(circuitSummaries(scope))
}

/** One circuit with its sections, crossings and phasing; undefined where there is none within the scope. */
export async function getCircuit(scope: Scope, id: number, db: Db = database()): Promise<CircuitJson | undefined> {
  const summary = await db.row<CircuitSummary>(circuitSummaries(scope, id))
  if (!summary) return undefined
  const [sections, crossings, phasing] = await Promise.all([
    db.rows<CircuitJson['sections'][number]>(circuitSections(scope, id)),
    db.rows<CircuitJson['crossings'][number]>(circuitCrossings(scope, id)),
    db.rows<CircuitJson['phasing'][number]>(circuitPhasing(scope, id)),
  ])
  return { ...summary, sections, crossings, phasing }
}
