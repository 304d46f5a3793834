import { onCircuit, onPlacement, type Scope } from '../scope'
import { patrolDoubts, patrolled, type Rules } from './inspections'
import { join, sql, type Sql } from './sql'

/** How phases are numbered where they are packed: '' is one that nobody confirmed. */
export const PACKED_PHASES = ['A', 'B', 'C', ''] as const
/** Whose rows of `span_coverage` come from extents: who went along a span and wrote down no reading of it. */
const patrolRow = sql`EXISTS (SELECT FROM import i WHERE i.id = v.import_id AND i.kind = 'extents')`

/**
 * Every span that was looked at, or has a splice, with the years of its looks, packed by the server as `splicePoints` packs splices: id, then for A, B, C and an
 * unconfirmed phase the years of readings, the years of patrols that wrote down their finds alone, and how many splices hang there. Years are
 * bits from `firstYear`, which stands for all before it too, to the thirtieth after it.
 */
export const packedLooks = (scope: Scope, firstYear: number): Sql => {
  const bit = sql`1 << greatest(0, least(30, extract(year FROM v.surveyed_on)::int - ${firstYear}::int))`
  const years = (phase: string, patrol: boolean) => sql`int4send(coalesce(bit_or(bit) FILTER (WHERE phase = ${phase} AND patrol = ${patrol}), 0))`
  const hanging = (phase: string) => sql`int4send(coalesce(sum(splices) FILTER (WHERE phase = ${phase}), 0)::int)`
  const facts = [
    ...PACKED_PHASES.map((phase) => years(phase, false)), ...PACKED_PHASES.map((phase) => years(phase, true)), ...PACKED_PHASES.map(hanging),
  ]
  return sql`
    WITH patrols AS MATERIALIZED (SELECT id FROM import WHERE kind = 'extents'), own AS (
      SELECT sp.id FROM span sp JOIN section sec ON sec.id = sp.section_id WHERE ${onCircuit(scope, 'sec.circuit_id')}
    ), facts AS (
      SELECT v.span_id, v.phase, p.id IS NOT NULL AS patrol, bit_or(${bit}) AS bit, 0::bigint AS splices
      FROM span_coverage v LEFT JOIN patrols p ON p.id = v.import_id GROUP BY 1, 2, 3
      UNION ALL
      SELECT s.span_id, coalesce(s.phase, ''), FALSE, 0, count(*) FROM splice s WHERE s.removed_on IS NULL GROUP BY 1, 2
    ), packed AS (
      SELECT int4send(f.span_id) || ${join(facts, ' || ')} AS bytes FROM facts f JOIN own ON own.id = f.span_id GROUP BY f.span_id
    )
    SELECT string_agg(bytes, '') AS bytes FROM packed`
}

/** The phases that a circuit has by its phasing table; circuits without one have the usual three. */
export const phasedCircuits = (scope: Scope): Sql => sql`
  SELECT circuit_id AS "circuitId", array_agg(DISTINCT phase) AS phases FROM phasing WHERE ${onCircuit(scope, 'circuit_id')} GROUP BY circuit_id`

/**
 * Readings of these surveys with time and position, a row for each crew, instrument and kind of position, packed in time order:
 * lon, lat and taken_ms as float8, sigma_m as float4, aircraft as a byte.
 */
export const trackStreams = (scope: Scope, surveyIds: readonly number[]): Sql => {
  const packed = (bytes: Sql) => sql`string_agg(${bytes}, '' ORDER BY r.taken_at, r.id)`
  return sql`
    SELECT r.survey_id AS "surveyId", sv.name AS survey, coalesce(r.crew, '') AS crew, coalesce(r.instrument, '') AS instrument, r.position_of AS "positionOf",
      ${packed(sql`float8send(r.lon)`)} AS lon, ${packed(sql`float8send(r.lat)`)} AS lat,
      ${packed(sql`float8send(extract(epoch FROM r.taken_at)::float8 * 1000)`)} AS "takenMs", ${packed(sql`float4send(coalesce(r.sigma_m, 0)::float4)`)} AS "sigmaM",
      ${packed(sql`CASE WHEN r.platform IN ('helicopter', 'uncrewed') THEN '\\x01'::bytea ELSE '\\x00'::bytea END`)} AS aircraft
    FROM reading r JOIN survey sv ON sv.id = r.survey_id
    WHERE r.survey_id = ANY(${surveyIds}::int[]) AND NOT r.withdrawn AND r.taken_at IS NOT NULL AND r.lon IS NOT NULL AND r.lat IS NOT NULL
      AND EXISTS (SELECT FROM placement p WHERE p.reading_id = r.id AND p.current AND ${onPlacement(scope, 'p')})
    GROUP BY r.survey_id, sv.name, coalesce(r.crew, ''), coalesce(r.instrument, ''), r.position_of
    ORDER BY r.survey_id, crew, instrument, r.position_of`
}

/** Where a span is: its circuit, section, structures and place. */
export const spanPlace = (scope: Scope, spanId: number): Sql => sql`
  SELECT sp.id AS span_id, c.id AS circuit_id, c.name AS circuit, sec.name AS section, back.label AS structure_back, ahead.label AS structure_ahead, sp.start_m, sp.end_m
  FROM span sp JOIN section sec ON sec.id = sp.section_id JOIN circuit c ON c.id = sec.circuit_id
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
  WHERE sp.id = ${spanId} AND ${onCircuit(scope, 'c.id')}`

/** Every look at a span: a row a phase, method and survey, with what a patrol on record lacked and what the pictures of a reading were taken at. */
export const looksAtSpan = (spanId: number, policy: Rules): Sql => sql`
  SELECT v.phase, v.method, sv.name AS survey, max(v.surveyed_on) AS surveyed_on, ${patrolRow} AS patrol, v.survey_id,
    CASE WHEN ${patrolRow} THEN (
      SELECT ${patrolDoubts(policy)} FROM survey_extent x JOIN section sec ON sec.id = x.section_id JOIN span sp ON sp.id = v.span_id AND ${patrolled}
      WHERE x.survey_id = v.survey_id AND x.import_id = v.import_id AND x.method = v.method
      ORDER BY x.surveyed_on DESC, cardinality(${patrolDoubts(policy)}) LIMIT 1
    ) ELSE (
      SELECT array_remove(ARRAY[
        CASE WHEN bool_and(r.line_current_a < ${policy.infrared.leastLoadShare} * sec.rating_a) THEN 'low-load' END,
        CASE WHEN bool_and(r.wind_m_s > ${policy.infrared.windMS}) THEN 'wind' END
      ], NULL)
      FROM splice s JOIN section sec ON sec.id = s.section_id JOIN placement p ON p.splice_id = s.id AND p.current AND p.state = 'placed'
      JOIN reading r ON r.id = p.reading_id AND NOT r.withdrawn
      WHERE v.method = 'infrared' AND s.span_id = v.span_id AND coalesce(s.phase, '') = v.phase AND r.survey_id = v.survey_id AND r.kind = v.method
    ) END AS doubts
  FROM span_coverage v JOIN survey sv ON sv.id = v.survey_id
  WHERE v.span_id = ${spanId}
  GROUP BY v.span_id, v.phase, v.method, v.survey_id, v.import_id, sv.name`
