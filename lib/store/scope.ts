import { name, sql, type Sql } from './sql/sql'

declare const proof: unique symbol

/**
 * What the caller may see and change. No function of the store works without one, and only `all-scope.ts` makes one out of nothing,
 * so that accounts can narrow it later in this one place.
 */
export interface Scope {
  readonly [proof]: 'scope'
  /** Part of every cache key. */
  readonly key: string
  /** Null: every circuit. */
  readonly circuitIds: readonly number[] | null
}

/** The same scope, cut down to some circuits. */
export function narrowed(scope: Scope, circuitIds: readonly number[]): Scope {
  const kept = scope.circuitIds ? circuitIds.filter((id) => scope.circuitIds?.includes(id)) : circuitIds
  const sorted = [...new Set(kept)].sort((a, b) => a - b)
  return { key: `circuits:${sorted.join('.')}`, circuitIds: sorted } as unknown as Scope
}

/** Condition for a WHERE clause: the circuit in this column is within the scope. */
export function onCircuit(scope: Scope, column: string): Sql {
  return scope.circuitIds ? sql`${name(column)} = ANY(${scope.circuitIds}::int[])` : sql`TRUE`
}

/**
 * Condition for a reading's placement: its circuit is within the scope or, where it has none yet, one of its candidates is.
 * A reading that lies near nothing is seen by those who see everything.
 */
export function onPlacement(scope: Scope, alias: string): Sql {
  if (!scope.circuitIds) return sql`TRUE`
  const p = name(alias)
  return sql`(${p}.circuit_id = ANY(${scope.circuitIds}::int[]) OR ${p}.circuit_id IS NULL AND EXISTS (
    SELECT FROM json_array_elements(${p}.candidates) c WHERE (c->>'circuitId')::int = ANY(${scope.circuitIds}::int[])))`
}

/** Condition for what belongs to no circuit: imports, policy, settings, the audit trail. */
export function onEverything(scope: Scope): Sql {
  return scope.circuitIds ? sql`FALSE` : sql`TRUE`
}

/** For bulk writes, where there is no row yet to put a condition on. Throws: the caller checked nothing. */
export function mustCoverEverything(scope: Scope): void {
  if (scope.circuitIds) throw new Error(`The scope ${scope.key} does not cover the whole network, which this work needs.`)
}
