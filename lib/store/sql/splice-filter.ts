import type { AGES, SpliceFilter } from '@/lib/contract/filter'
import { onCircuit, type Scope } from '../scope'
import { join, sql, type Sql } from './sql'

export type Bbox = readonly [west: number, south: number, east: number, north: number]

/** Condition over `s` (splice), `st` (its state, which only a splice in service has) and `c` (its circuit): within the scope, let through by the filter. */
export function spliceCondition(scope: Scope, filter: SpliceFilter, bbox?: Bbox): Sql {
  return sql`${onCircuit(scope, 's.circuit_id')}
    AND ${given(filter.classes, (v) => sql`st.class = ANY(${v}::text[])`)}
    AND ${given(filter.circuitIds, (v) => sql`s.circuit_id = ANY(${v}::int[])`)}
    AND ${given(filter.voltagesKv, (v) => sql`c.voltage_kv = ANY(${v}::float8[])`)}
    AND ${given(filter.phases, (v) => sql`coalesce(s.phase, '') = ANY(${v.map(unknownPhase)}::text[])`)}
    AND ${given(filter.confidences, (v) => sql`st.confidence = ANY(${v}::text[])`)}
    AND ${given(filter.surveyIds, (v) => sql`s.id IN (${readInSurveys(v)})`)}
    AND ${given(filter.ages, (v) => (v.length === 0 ? sql`FALSE` : sql`(${join(v.map(ofAge), ' OR ')})`))}
    AND ${given(filter.evidence, (v) => sql`evidence_of(st.flags, st.measured_ratio) = ANY(${v}::text[])`)}
    AND ${given(bbox, (v) => inBbox(v))}`
}

/** The part of a filter that is about circuits alone, over `c`. */
export const circuitCondition = (scope: Scope, { circuitIds, voltagesKv }: Pick<SpliceFilter, 'circuitIds' | 'voltagesKv'>): Sql => sql`${onCircuit(scope, 'c.id')}
  AND ${given(circuitIds, (v) => sql`c.id = ANY(${v}::int[])`)} AND ${given(voltagesKv, (v) => sql`c.voltage_kv = ANY(${v}::float8[])`)}`

const readInSurveys = (surveyIds: number[]): Sql => sql`
  SELECT p.splice_id FROM placement p JOIN reading r ON r.id = p.reading_id
  WHERE p.current AND p.state = 'placed' AND p.splice_id IS NOT NULL AND NOT r.withdrawn AND r.survey_id = ANY(${surveyIds}::int[])`

/** Years since the last reading, from and below. */
const YEARS: Record<Exclude<(typeof AGES)[number], 'never'>, readonly [from: number, below: number]> = {
  'under-1': [0, 1], '1-3': [1, 3], '3-6': [3, 6], 'over-6': [6, 1000],
}

function ofAge(age: (typeof AGES)[number]): Sql {
  if (age === 'never') return sql`st.last_reading_at IS NULL`
  const [from, below] = YEARS[age]
  // What was read in a file whose clock runs ahead is new.
  const notNewer = from === 0 ? sql`TRUE` : sql`st.last_reading_at <= now() - make_interval(years => ${from}::int)`
  return sql`(${notNewer} AND st.last_reading_at > now() - make_interval(years => ${below}::int))`
}

/** An absent field filters nothing. */
function given<T>(value: T | undefined, condition: (value: T) => Sql): Sql {
  return value === undefined ? sql`TRUE` : condition(value)
}

const unknownPhase = (phase: string): string => (phase === 'unknown' ? '' : phase)

// A box whose west lies east of its east crosses the 180th meridian.
function inBbox([west, south, east, north]: Bbox): Sql {
  const lon = west <= east ? sql`s.lon BETWEEN ${west} AND ${east}` : sql`(s.lon >= ${west} OR s.lon <= ${east})`
  return sql`${lon} AND s.lat BETWEEN ${south} AND ${north}`
}
