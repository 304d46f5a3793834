import { onCircuit, type Scope } from '../scope'
import { greatestLoadOf, lastLoadOf, plannedOf } from './last-load'
import { sql, type Sql } from './sql'
import { unsettledJson, unsettledReadings } from './unsettled'

const COUNTS = sql`jsonb_build_object('sound', coalesce(h.sound_count, 0), 'watch', coalesce(h.watch_count, 0),
  'degraded', coalesce(h.degraded_count, 0), 'urgent', coalesce(h.urgent_count, 0), 'critical', coalesce(h.critical_count, 0),
  'unknown', coalesce(h.unknown_count, 0))`

/** Sound splices of the roll-up `h` that nobody measured again by the day on which they were to be. */
export const soundPastReMeasure = sql`coalesce((
  SELECT sum(value::int) FROM jsonb_each_text(h.sound_until) WHERE key::date < (now() AT TIME ZONE 'UTC')::date), 0)::int`

/** Whether no splice of circuit `c` has a class. */
const NOTHING_KNOWN = sql`coalesce(h.unknown_count > 0 AND h.unknown_count = h.splice_count, FALSE)`

/**
 * By class counts, the worse class first: one more critical splice, or reading whose place is not settled, outweighs any number of urgent ones.
 * A circuit of which nothing is known stands right after those with something urgent, by voltage and by what it carries.
 * Over circuit `c`, its roll-up `h` and its unsettled readings `un`.
 */
export const worstCircuitFirst = sql`coalesce(h.critical_count, 0) + coalesce(un.critical, 0) DESC, coalesce(h.urgent_count, 0) + coalesce(un.urgent, 0) DESC,
  ${NOTHING_KNOWN} DESC, CASE WHEN ${NOTHING_KNOWN} THEN c.voltage_kv END DESC NULLS LAST,
  CASE WHEN ${NOTHING_KNOWN} THEN ${greatestLoadOf('c.id')} END DESC NULLS LAST, h.degraded_count DESC NULLS LAST, h.watch_count DESC NULLS LAST, c.name`

/** Circuits as the API lists them, worst first, from the roll-up; one circuit where an id is given. */
export const circuitSummaries = (scope: Scope, id?: number): Sql => sql`
  SELECT c.id, c.name, c.line_name, c.from_name AS "from", c.to_name AS "to", c.voltage_kv, c.region,
    coalesce(sec.length_m, 0) AS length_m, ${COUNTS} AS counts, ${soundPastReMeasure} AS sound_past_re_measure, ${unsettledJson} AS unsettled,
    CASE WHEN h.critical_count > 0 OR un.critical > 0 THEN 'critical' WHEN h.urgent_count > 0 OR un.urgent > 0 THEN 'urgent' WHEN h.degraded_count > 0 THEN 'degraded'
      WHEN h.watch_count > 0 THEN 'watch' WHEN h.sound_count > 0 THEN 'sound' ELSE 'unknown' END AS worst_class,
    sec.bbox
  FROM circuit c
  LEFT JOIN circuit_health h ON h.circuit_id = c.id
  LEFT JOIN (${unsettledReadings}) un ON un.circuit_id = c.id
  LEFT JOIN LATERAL (
    SELECT sum(length_m) AS length_m, jsonb_build_array(min(bbox[1]), min(bbox[2]), max(bbox[3]), max(bbox[4])) AS bbox
    FROM section WHERE circuit_id = c.id HAVING count(*) > 0
  ) sec ON TRUE
  WHERE ${onCircuit(scope, 'c.id')} AND ${id === undefined ? sql`TRUE` : sql`c.id = ${id}`}
  ORDER BY ${worstCircuitFirst}`

/** Sections of a circuit as the API shows them, without their geometry: that travels in the tiles. */
export const circuitSections = (scope: Scope, id: number): Sql => sql`
  SELECT sec.id, sec.name, sec.from_name AS "from", sec.to_name AS "to", sec.conductor_code AS conductor, sec.subconductors, sec.rating_a,
    sec.rating_emergency_a, sec.max_operating_c, sec.elevation_m, sec.lateral_offset_m, sec.length_m, sec.declared_length_m, ${lastLoadOf('sec.id')} AS last_load,
    ${plannedOf('expected-peak')} AS expected_peak, ${plannedOf('post-contingency')} AS post_contingency,
    (SELECT count(*) FROM section_structure x WHERE x.section_id = sec.id) AS structure_count,
    (SELECT count(*) FROM span x WHERE x.section_id = sec.id) AS span_count
  FROM section sec WHERE sec.circuit_id = ${id} AND ${onCircuit(scope, 'sec.circuit_id')}
  ORDER BY sec.name <> 'main', sec.name`

export const circuitCrossings = (scope: Scope, id: number): Sql => sql`
  SELECT id, line_distance_m, kind, name FROM crossing
  WHERE circuit_id = ${id} AND ${onCircuit(scope, 'circuit_id')} ORDER BY line_distance_m`

export const circuitPhasing = (scope: Scope, id: number): Sql => sql`
  SELECT structure_from, structure_to, position, phase FROM phasing
  WHERE circuit_id = ${id} AND ${onCircuit(scope, 'circuit_id')} ORDER BY structure_from, position`
