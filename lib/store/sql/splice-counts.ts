import { CONDITION_CLASSES } from '@/lib/condition'
import { soundPastReMeasure } from './circuit-summary'
import { join, name, sql, type Sql } from './sql'

/** Splices per class as one row with the API's names, over whatever condition. Shows as `st.class`. */
export const classCountColumns: Sql = sql`
  count(*) FILTER (WHERE st.class = 'sound') AS sound, count(*) FILTER (WHERE st.class = 'watch') AS watch,
  count(*) FILTER (WHERE st.class = 'degraded') AS degraded, count(*) FILTER (WHERE st.class = 'urgent') AS urgent,
  count(*) FILTER (WHERE st.class = 'critical') AS critical, count(*) FILTER (WHERE st.class = 'unknown') AS unknown`

export const spliceCounts = (condition: Sql): Sql => sql`
  SELECT ${classCountColumns}
  FROM splice s JOIN splice_state st ON st.splice_id = s.id JOIN circuit c ON c.id = s.circuit_id
  WHERE ${condition}`

/** Sound splices over whatever condition that nobody measured again by the day on which they were to be; as `soundPastReMeasure` of the roll-up has it. */
export const soundPastCount = (condition: Sql): Sql => sql`
  SELECT count(*)::int AS n FROM splice s JOIN splice_state st ON st.splice_id = s.id JOIN circuit c ON c.id = s.circuit_id
  WHERE st.class = 'sound' AND CASE WHEN st.measure_by IS NULL THEN 'stale' = ANY(st.flags)
    ELSE (st.measure_by AT TIME ZONE 'UTC')::date < (now() AT TIME ZONE 'UTC')::date END AND ${condition}`

/** The same from what each circuit's roll-up holds. Over `c` (circuit) alone. */
export const rolledUpSoundPast = (condition: Sql): Sql => sql`
  SELECT coalesce(sum(${soundPastReMeasure}), 0)::int AS n FROM circuit_health h JOIN circuit c ON c.id = h.circuit_id WHERE ${condition}`

/** Counts per class from what each circuit's roll-up holds. Over `c` (circuit) alone. */
export const rolledUpCounts = (condition: Sql): Sql => sql`
  SELECT ${join(CONDITION_CLASSES.map((each) => sql`coalesce(sum(h.${name(`${each}_count`)}), 0)::int AS ${name(each)}`))}
  FROM circuit_health h JOIN circuit c ON c.id = h.circuit_id
  WHERE ${condition}`
