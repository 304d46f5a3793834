import type { CircuitHealth } from '@/lib/contract/contract'
import { positionTextOf, type PositionRow } from './position'
import { onCircuit, type Scope } from './scope'
import { iso } from './sql/iso'
import { rollUpClasses, rollUpCoverage } from './sql/roll-up'
import { sql, type Sql } from './sql/sql'
import { database, type Db } from './transaction'

/** Brings the roll-up of these circuits up to date. `coverage` where spans, phasing or inspections changed too. */
export async function rollUpCircuits(scope: Scope, circuitIds: readonly number[], what: 'classes' | 'classes and coverage', db: Db): Promise<void> {
  if (circuitIds.length === 0) return
  await db.run(rollUpClasses(scope, circuitIds))
  if (what === 'classes and coverage') await db.run(rollUpCoverage(scope, circuitIds))
}

type HealthRow = Omit<CircuitHealth, 'worst_splice'> & { worst: (Omit<NonNullable<CircuitHealth['worst_splice']>, 'position_text'> & PositionRow) | null }

const question = (scope: Scope, where: Sql): Sql => sql`
  SELECT h.circuit_id, c.name AS circuit, h.splice_count, h.last_surveyed_on, ${iso('h.updated_at')} AS updated_at,
    jsonb_build_object('sound', h.sound_count, 'watch', h.watch_count, 'degraded', h.degraded_count, 'urgent', h.urgent_count,
      'critical', h.critical_count, 'unknown', h.unknown_count) AS counts,
    jsonb_build_object('span_count', h.span_count, 'span_phase_count', h.span_phase_count, 'covered_span_phases', h.covered_span_phases,
      'share', h.covered_span_phases::float8 / nullif(h.span_phase_count, 0)) AS coverage,
    CASE WHEN s.id IS NOT NULL THEN jsonb_build_object('id', s.id, 'splice', coalesce(s.label, 'found ' || s.id), 'class', st.class,
      'ratio', st.ratio, 'structure_back', back.label, 'structure_ahead', ahead.label, 'offset_m', s.offset_m,
      'line_distance_m', s.line_distance_m, 'phase', s.phase, 'position', s.position, 'circuit_side', s.circuit_side,
      'subconductor', s.subconductor) END AS worst
  FROM circuit_health h
  JOIN circuit c ON c.id = h.circuit_id
  LEFT JOIN splice s ON s.id = h.worst_splice_id
  LEFT JOIN splice_state st ON st.splice_id = s.id
  LEFT JOIN span sp ON sp.id = s.span_id
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
  WHERE ${where} AND ${onCircuit(scope, 'c.id')}
  ORDER BY -class_rank(coalesce(st.class, '')), h.critical_count DESC, h.urgent_count DESC, h.degraded_count DESC, c.name`

function healthJson({ worst, ...row }: HealthRow, position: (row: PositionRow) => string): CircuitHealth {
  return {
    ...row,
    worst_splice: worst && { id: worst.id, splice: worst.splice, class: worst.class, ratio: worst.ratio, position_text: position(worst) },
  }
}

/** How every circuit stands, the worst first. */
export async function listHealth(scope: Scope, db: Db = database()): Promise<CircuitHealth[]> {
  const [rows, position] = await Promise.all([db.rows<HealthRow>(question(scope, sql`TRUE`)), positionTextOf(scope, db)])
  return rows.map((row) => healthJson(row, position))
}

/** How one circuit stands. */
export async function getHealth(scope: Scope, circuitId: number, db: Db = database()): Promise<CircuitHealth | undefined> {
  const [row, position] = await Promise.all([db.row<HealthRow>(question(scope, sql`h.circuit_id = ${circuitId}`)), positionTextOf(scope, db)])
  return row && healthJson(row, position)
}
