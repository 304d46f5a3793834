import { onCircuit, type Scope } from '../scope'
import { sql, type Sql } from './sql'

const failing = sql`st.class IN ('degraded', 'urgent', 'critical')`

/** Splices in service by batch; those of no batch under null. */
export const batchCounts = (scope: Scope): Sql => sql`
  SELECT s.batch, count(*)::int AS splice_count, count(*) FILTER (WHERE st.class <> 'unknown')::int AS measured_count,
    count(*) FILTER (WHERE ${failing})::int AS failing_count
  FROM splice_state st JOIN splice s ON s.id = st.splice_id
  WHERE ${onCircuit(scope, 'st.circuit_id')} GROUP BY s.batch`

/** Of these batches what fails and what nobody measured, the worst first, the unmeasured last. */
export const spliceNeedsOfBatches = (scope: Scope, batches: readonly string[]): Sql => sql`
  SELECT s.batch, s.id, coalesce(s.label, 'found ' || s.id) AS splice, s.circuit_id, c.name AS circuit, st.class, st.ratio
  FROM splice s JOIN splice_state st ON st.splice_id = s.id JOIN circuit c ON c.id = s.circuit_id
  WHERE s.batch = ANY(${batches}::text[]) AND (${failing} OR st.class = 'unknown') AND ${onCircuit(scope, 's.circuit_id')}
  ORDER BY s.batch, class_rank(st.class) DESC, st.ratio DESC NULLS LAST, s.id`
