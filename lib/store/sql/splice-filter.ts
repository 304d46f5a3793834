import type { SpliceFilter } from '@/lib/contract/filter'
import { onCircuit, type Scope } from '../scope'
import { sql, type Sql } from './sql'

export type Bbox = readonly [west: number, south: number, east: number, north: number]

/** Condition over `s` (splice), `st` (its state, which only a splice in service has) and `c` (its circuit): within the scope, let through by the filter. */
export function spliceCondition(scope: Scope, filter: SpliceFilter, bbox?: Bbox): Sql {
  return sql`${onCircuit(scope, 's.circuit_id')}
    AND ${given(filter.classes, (v) => sql`st.class = ANY(${v}::text[])`)}
    AND ${given(filter.circuitIds, (v) => sql`s.circuit_id = ANY(${v}::int[])`)}
    AND ${given(filter.voltagesKv, (v) => sql`c.voltage_kv = ANY(${v}::float8[])`)}
    AND ${given(filter.phases, (v) => sql`coalesce(s.phase, '') = ANY(${v.map(unknownPhase)}::text[])`)}
    AND ${given(bbox, (v) => inBbox(v))}`
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
