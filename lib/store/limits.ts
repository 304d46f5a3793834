import { allowedA } from '@/lib/condition/governing-limit'
import { mvaOf } from '@/lib/condition/current-limit'
import { standingOf } from '@/lib/condition/limit-lapse'
import type { CircuitHealth } from '@/lib/contract/contract'
import type { CurrentLimitJson } from '@/lib/contract/limits'
import { onCircuit, type Scope } from './scope'
import { iso } from './sql/iso'
import { sql, type Sql } from './sql/sql'
import { database, type Db } from './transaction'

type Row = Omit<CurrentLimitJson, 'mva' | 'standing' | 'standing_why'> & { voltage_kv: number | null; rating_a: number | null }

const limitsQuestion = (where: Sql): Sql => sql`
  SELECT l.id, l.splice_id, coalesce(s.label, 'found ' || s.id) AS splice, s.circuit_id, c.name AS circuit, s.section_id, l.line_a, l.advised_a, l.reason,
    l.proposed_by, ${iso('l.proposed_at')} AS proposed_at, ${iso('l.review_by')} AS review_by, l.agreed_by, ${iso('l.agreed_at')} AS agreed_at,
    l.accepted_by, ${iso('l.accepted_at')} AS accepted_at, ${iso('l.in_force_from')} AS in_force_from, l.lifted_by, ${iso('l.lifted_at')} AS lifted_at,
    l.lifted_why, c.voltage_kv, sec.rating_a,
    (SELECT max(x.current_a) FROM section_load x WHERE x.section_id = s.section_id AND x.taken_at >= l.in_force_from
      AND x.flow = 'carried' AND x.quality IS DISTINCT FROM 'suspect') AS greatest_load_a
  FROM current_limit l JOIN splice s ON s.id = l.splice_id JOIN circuit c ON c.id = s.circuit_id JOIN section sec ON sec.id = s.section_id
  WHERE ${where}
  ORDER BY l.lifted_at IS NOT NULL, l.line_a, l.id DESC`

/** The register of one splice, what is not lifted first. */
export const limitsOfSplice = (scope: Scope, spliceId: number, nowMs: number, db: Db = database()): Promise<CurrentLimitJson[]> =>
  ask(sql`l.splice_id = ${spliceId} AND ${onCircuit(scope, 's.circuit_id')}`, nowMs, db)

/** Every limit that is not lifted, the lowest first: of a circuit the first in force is the limiting one. */
export const openLimits = (scope: Scope, circuitId: number | null, nowMs: number, db: Db = database()): Promise<CurrentLimitJson[]> =>
  ask(sql`l.lifted_at IS NULL AND (${circuitId}::int IS NULL OR s.circuit_id = ${circuitId}::int) AND ${onCircuit(scope, 's.circuit_id')}`, nowMs, db)

/** Those of these splices that are not lifted: at most one each. */
export const limitsOpenOf = (scope: Scope, spliceIds: readonly number[], nowMs: number, db: Db = database()): Promise<CurrentLimitJson[]> =>
  ask(sql`l.lifted_at IS NULL AND l.splice_id = ANY(${spliceIds}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`, nowMs, db)

export async function limitById(scope: Scope, id: number, nowMs: number, db: Db = database()): Promise<CurrentLimitJson | undefined> {
  return (await ask(sql`l.id = ${id} AND ${onCircuit(scope, 's.circuit_id')}`, nowMs, db))[0]
}

async function ask(where: Sql, nowMs: number, db: Db): Promise<CurrentLimitJson[]> {
  return (await db.rows<Row>(limitsQuestion(where))).map(({ voltage_kv: voltageKv, rating_a: ratingA, ...row }) => ({
    ...row, mva: voltageKv === null ? null : mvaOf(row.line_a, voltageKv), ...standing(row, ratingA, nowMs),
  }))
}

function standing(row: Omit<Row, 'voltage_kv' | 'rating_a'>, ratingA: number | null, nowMs: number): Pick<CurrentLimitJson, 'standing' | 'standing_why'> {
  if (row.lifted_at !== null) return { standing: 'lifted', standing_why: null }
  if (row.accepted_at === null) return { standing: row.agreed_at === null ? 'proposed' : 'agreed', standing_why: null }
  const found = standingOf({ lineA: row.line_a, reviewByMs: Date.parse(row.review_by) }, nowMs, row.greatest_load_a ?? undefined)
  if (found.kind === 'ask-engineer') {
    const why = found.why === 'review-due' ? 'Its review is due.' : `A load of ${Math.ceil(found.greatestA)} A has passed it since it came into force.`
    return { standing: 'ask-engineer', standing_why: `${why} Ask the rating engineer; it stays on the register until a person lifts it.` }
  }
  if (ratingA !== null && row.line_a > ratingA) {
    return { standing: 'ask-engineer', standing_why: `The section is rated ${allowedA(ratingA)} A now, which is lower. Ask the rating engineer.` }
  }
  return { standing: 'in-force', standing_why: null }
}

export interface NewLimit { spliceId: number; lineA: number; advisedA: number | null; reason: string; proposedBy: string; reviewBy: Date }

export async function insertLimit(scope: Scope, limit: NewLimit, db: Db): Promise<number | undefined> {
  return (await db.row<{ id: number }>(sql`
    INSERT INTO current_limit (splice_id, line_a, advised_a, reason, proposed_by, review_by)
    SELECT s.id, ${limit.lineA}::float8, ${limit.advisedA}::float8, ${limit.reason}::text, ${limit.proposedBy}::text, ${limit.reviewBy}::timestamptz
    FROM splice s WHERE s.id = ${limit.spliceId} AND ${onCircuit(scope, 's.circuit_id')} RETURNING id`))?.id
}

export const agreeLimit = (id: number, by: string, db: Db): Promise<number> =>
  db.run(sql`UPDATE current_limit SET agreed_by = ${by}, agreed_at = now() WHERE id = ${id}`)

export const acceptLimit = (id: number, by: string, inForceFrom: Date | null, db: Db): Promise<number> => db.run(sql`
  UPDATE current_limit SET accepted_by = ${by}, accepted_at = now(), read_back = TRUE, in_force_from = coalesce(${inForceFrom}::timestamptz, now())
  WHERE id = ${id}`)

export const liftLimit = (id: number, by: string, why: string, db: Db): Promise<number> =>
  db.run(sql`UPDATE current_limit SET lifted_by = ${by}, lifted_at = now(), lifted_why = ${why} WHERE id = ${id}`)

/** How many limits of each circuit are in force or have lapsed, and the lowest of each; a circuit without one is not among them. */
export async function limitsByCircuit(scope: Scope, nowMs: number, db: Db = database()): Promise<Map<number, CircuitHealth['limits']>> {
  const found = new Map<number, CircuitHealth['limits']>()
  // The lowest comes first.
  for (const { circuit_id: circuitId, splice_id, splice, line_a, standing: how } of await openLimits(scope, null, nowMs, db)) {
    const of = found.get(circuitId) ?? { ...NO_LIMITS }
    found.set(circuitId, of)
    const one = { splice_id, splice, line_a }
    if (how === 'in-force') Object.assign(of, { in_force: of.in_force + 1, lowest_in_force: of.lowest_in_force ?? one })
    if (how === 'ask-engineer') Object.assign(of, { ask_engineer: of.ask_engineer + 1, lowest_ask_engineer: of.lowest_ask_engineer ?? one })
  }
  return found
}

export const NO_LIMITS: CircuitHealth['limits'] = { in_force: 0, ask_engineer: 0, lowest_in_force: null, lowest_ask_engineer: null }
