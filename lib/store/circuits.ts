import type { CircuitJson } from '@/lib/contract/api'
import type { CircuitSummary } from '@/lib/contract/contract'
import { BadCursor, fromCursor, pageOf } from './cursor'
import { ifItTripsOf } from './if-it-trips'
import { openLimits } from './limits'
import { onCircuit, type Scope } from './scope'
import { lowestSpliceLimits } from './section-limits'
import { circuitCrossings, circuitPhasing, circuitSections, circuitSummaries } from './sql/circuit-summary'
import { sql } from './sql/sql'
import { unknownSplices } from './sql/unknown-splices'
import { database, type Db } from './transaction'

/** Every circuit within the scope, the worst first. */
export async function listCircuits(scope: Scope, db: Db = database()): Promise<CircuitSummary[]> {
  return db.rows<CircuitSummary>(circuitSummaries(scope))
}

/** A page of them, all of them where no length is given. They are ranked by what they hold, so a page continues after a circuit. */
export async function circuitPage(scope: Scope, cursor?: string, limit?: number, db: Db = database()) {
  const asked = ['circuits']
  const after = fromCursor(cursor, ['int'], asked)
  const all = await listCircuits(scope, db)
  const from = after === null ? 0 : all.findIndex(({ id }) => id === after[0]) + 1
  if (after !== null && from === 0) throw new BadCursor(cursor ?? '')
  return { ...pageOf(all.slice(from), limit ?? all.length, ({ id }) => [id], asked), total: all.length }
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
  const [sections, limits, spliceLimits, crossings, phasing, unknown, ifItTrips] = await Promise.all([
    db.rows<CircuitJson['sections'][number]>(circuitSections(scope, id)),
    openLimits(scope, id, Date.now(), db),
    lowestSpliceLimits(scope, id, db),
    db.rows<CircuitJson['crossings'][number]>(circuitCrossings(scope, id)),
    db.rows<CircuitJson['phasing'][number]>(circuitPhasing(scope, id)),
    db.row<CircuitJson['unknown']>(unknownSplices(scope, id)),
    ifItTripsOf(scope, id, db),
  ])
  // It went between the questions.
  if (!ifItTrips) return undefined
  return {
    ...summary, unknown: unknown ?? { never_looked_at: 0, inconclusive: 0, passed_by: 0 }, sections, limits, splice_limits: spliceLimits, crossings, phasing,
    if_it_trips: ifItTrips,
  }
}
