import { CONDITION_CLASSES, type Policy } from '@/lib/condition'
import { onCircuit, type Scope } from '../scope'
import { conclusivePhases, lookedAtSpans } from './inspections'
import { join, name, sql, type Sql } from './sql'

/**
 * Counts per class, by when the sound ones were to be measured again (undated ones by the first day there is), and the worst splice of these
 * circuits, from the latest states, written over what stood there.
 */
export const rollUpClasses = (scope: Scope, circuitIds: readonly number[]): Sql => sql`
  INSERT INTO circuit_health (circuit_id, splice_count, sound_count, watch_count, degraded_count, urgent_count, critical_count, unknown_count,
    sound_until, worst_splice_id, updated_at)
  SELECT c.id, coalesce(n.total, 0), coalesce(n.sound, 0), coalesce(n.watch, 0), coalesce(n.degraded, 0), coalesce(n.urgent, 0),
    coalesce(n.critical, 0), coalesce(n.unknown, 0), coalesce(n.sound_until, '{}'), worst.splice_id, now()
  FROM circuit c
  LEFT JOIN (
    SELECT circuit_id, sum(n) AS total, ${join(CONDITION_CLASSES.map((each) => sql`sum(n) FILTER (WHERE class = ${each}) AS ${name(each)}`))},
      jsonb_object_agg(day, n) FILTER (WHERE day IS NOT NULL) AS sound_until,
      (array_agg(class ORDER BY -class_rank(class)) FILTER (WHERE class <> 'unknown'))[1] AS worst_class
    FROM (
      SELECT st.circuit_id, st.class, CASE WHEN st.class <> 'sound' THEN NULL WHEN st.measure_by IS NOT NULL
        THEN (st.measure_by AT TIME ZONE 'UTC')::date WHEN 'stale' = ANY(st.flags) THEN DATE '0001-01-01' END AS day, count(*) AS n
      FROM splice_state st WHERE st.circuit_id = ANY(${circuitIds}::int[]) GROUP BY st.circuit_id, st.class, 3
    ) alike GROUP BY circuit_id
  ) n ON n.circuit_id = c.id
  LEFT JOIN LATERAL (
    -- by its class, not by rank: the index of the network's worst would pass every worse splice of other circuits before a sound one of this
    SELECT st.splice_id FROM splice_state st WHERE st.circuit_id = c.id AND st.class = n.worst_class
    ORDER BY -coalesce(st.ratio, 0), st.splice_id LIMIT 1
  ) worst ON TRUE
  WHERE c.id = ANY(${circuitIds}::int[]) AND ${onCircuit(scope, 'c.id')}
  ORDER BY c.id
  ON CONFLICT (circuit_id) DO UPDATE SET splice_count = excluded.splice_count, sound_count = excluded.sound_count,
    watch_count = excluded.watch_count, degraded_count = excluded.degraded_count, urgent_count = excluded.urgent_count,
    critical_count = excluded.critical_count, unknown_count = excluded.unknown_count, sound_until = excluded.sound_until, worst_splice_id = excluded.worst_splice_id,
    updated_at = excluded.updated_at`

/** A three-phase circuit, where no phasing table says otherwise. */
const ASSUMED_PHASES = 3

/**
 * Spans and phases that were looked at, those of them looked at conclusively with how old those looks are, and the last day anybody looked. A phase that is not confirmed
 * proves one phase of its span at most. Of spans and phases and not of found over found, which would always read 100 % (common practice,
 * no source). Rows of circuit_health must be there: classes are rolled up first.
 */
export const rollUpCoverage = (scope: Scope, circuitIds: readonly number[], policy: Policy): Sql => sql`
  UPDATE circuit_health h SET span_count = f.span_count, span_phase_count = f.span_count * f.phase_count,
    covered_span_phases = f.covered, conclusive_span_phases = f.conclusive, conclusive_oldest_on = f.oldest_on, conclusive_newest_on = f.newest_on,
    conclusive_until = f.until, every_interface_until = f.read_until, last_surveyed_on = f.last_on, updated_at = now()
  FROM (
    SELECT c.id, phases.n AS phase_count, spans.n AS span_count, looks.*
    FROM circuit c
    CROSS JOIN LATERAL (
      SELECT coalesce(nullif(count(DISTINCT phase), 0), ${ASSUMED_PHASES}::int)::int AS n FROM phasing WHERE circuit_id = c.id
    ) phases
    CROSS JOIN LATERAL (SELECT count(*) AS n FROM section sec JOIN span sp ON sp.section_id = sec.id WHERE sec.circuit_id = c.id) spans
    CROSS JOIN LATERAL (
      WITH look AS MATERIALIZED (${lookedAtSpans(sql`c.id`)})
      SELECT looked.*, proved.*
      FROM (
        SELECT max(last_on) AS last_on, coalesce(sum(least(phases.n, greatest(a::int + b::int + c::int, unconfirmed::int))), 0) AS covered FROM look
      ) looked
      CROSS JOIN (
        SELECT coalesce(sum(n) FILTER (WHERE NOT of_reading), 0) AS conclusive, min(oldest_on) AS oldest_on, max(newest_on) AS newest_on,
          coalesce(jsonb_object_agg(until, n) FILTER (WHERE until IS NOT NULL), '{}') AS until,
          coalesce(jsonb_object_agg(read_until, n) FILTER (WHERE read_until IS NOT NULL), '{}') AS read_until
        FROM (
          SELECT until, read_until, grouping(until) = 1 AS of_reading, count(*) AS n, min(conclusive_on) AS oldest_on, max(conclusive_on) AS newest_on FROM (
            SELECT conclusive_on, until, read_until, phase, first_value(phase <> '') OVER best_first AS named, row_number() OVER best_first AS nth
            FROM (${conclusivePhases(sql`c.id`, policy)}) proved WINDOW best_first AS (PARTITION BY span_id ORDER BY phase = '', until DESC)
          ) ranked WHERE nth <= phases.n AND (phase <> '' OR NOT named) GROUP BY GROUPING SETS ((until), (read_until))
        ) days
      ) proved
    ) looks
    WHERE c.id = ANY(${circuitIds}::int[]) AND ${onCircuit(scope, 'c.id')}
  ) f WHERE h.circuit_id = f.id`
