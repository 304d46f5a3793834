import { onCircuit, type Scope } from '../scope'
import { patrolled } from './inspections'
import { sql, type Sql } from './sql'

/** Splices of a circuit whose class is not known: those that nobody looked at, those read in vain, and those whose span somebody went along without a reading of them. */
export const unknownSplices = (scope: Scope, circuitId: number): Sql => sql`
  SELECT count(*) FILTER (WHERE NOT looked)::int AS never_looked_at, count(*) FILTER (WHERE was_read)::int AS inconclusive,
    count(*) FILTER (WHERE looked AND NOT was_read)::int AS passed_by
  FROM (
    SELECT st.reading_count > 0 AS was_read, st.reading_count > 0 OR EXISTS (
      SELECT FROM survey_extent x JOIN span sp ON sp.id = s.span_id AND ${patrolled}
      WHERE x.circuit_id = st.circuit_id AND (s.installed_on IS NULL OR x.surveyed_on >= s.installed_on)) AS looked
    FROM splice_state st JOIN splice s ON s.id = st.splice_id
    WHERE st.circuit_id = ${circuitId} AND st.class = 'unknown' AND ${onCircuit(scope, 'st.circuit_id')}
  ) each`
