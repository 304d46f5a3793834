import type { CircuitJson } from '@/lib/contract/api'
import type { CircuitSummary } from '@/lib/contract/contract'
import { openLimits } from './limits'
import { onCircuit, type Scope } from './scope'
import { circuitCrossings, circuitPhasing, circuitSections, circuitSummaries } from './sql/circuit-summary'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

/** Every circuit within the scope, the worst first. */
export async function listCircuits(scope: Scope, db: Db = database()): Promise<CircuitSummary[]> {
  return db.rows<CircuitSummary>(circuitSummaries(scope))
}

/** Circuits that a text may mean: the one with that id, those of that name or line name in any case. */
export async function circuitsCalled(scope: Scope, texts: readonly string[], db: Db = database()): Promise<{ id: number; name: string; line_name: string | null }[]> {
  return db.rows(sql`
    SELECT id, name, line_name FROM circuit
    WHERE (id::text = ANY(${texts}::text[]) OR lower(name) = ANY(${texts.map((text) => text.toLowerCase())}::text[])
      OR lower(line_name) = ANY(${texts.map((text) => text.toLowerCase())}::text[])) AND ${onCircuit(scope, 'id')}
    ORDER BY id`)
}

/** One circuit with its sections, crossings and phasing; undefined where there is none within the scope. */
export async function getCircuit(scope: Scope, id: number, db: Db = database()): Promise<CircuitJson | undefined> {
  const summary = await db.row<CircuitSummary>(circuitSummaries(scope, id))
  if (!summary) return undefined
  const [sections, limits, crossings, phasing] = await Promise.all([
    db.rows<CircuitJson['sections'][number]>(circuitSections(scope, id)),
    openLimits(scope, id, Date.now(), db),
    db.rows<CircuitJson['crossings'][number]>(circuitCrossings(scope, id)),
    db.rows<CircuitJson['phasing'][number]>(circuitPhasing(scope, id)),
  ])
  return { ...summary, sections, limits, crossings, phasing }
}
