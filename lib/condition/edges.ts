import type { Policy } from './policy'
import type { ConditionClass, Edges } from './types'

/** The default table holds up to this maximum operating temperature of the section, °C. */
const DEFAULT_EDGES_UP_TO_C = 75

/** The edges a splice is judged by, and whether they are a makeshift for a hotter section that nobody set edges for. */
export interface EdgesInForce {
  edges: Edges
  makeshift: boolean
}

/**
 * Edges for a section's maximum operating temperature in °C; absent counts as 75 °C.
 * Above 75 °C the row of the policy with the next higher temperature is taken. Without one they are computed for conductor and barrel, and where
 * that cannot be done the more cautious of the general edges and the policy's edges above 75 °C stand in, and the assessment says so.
 * @param compute edges of this conductor and barrel for a temperature; null where there are none
 */
export function edgesInForce(
  maxOperatingC: number | undefined, policy: Policy, compute: (maxOperatingC: number) => Edges | null = () => null,
): EdgesInForce {
  if (maxOperatingC === undefined || maxOperatingC <= DEFAULT_EDGES_UP_TO_C) {
    const { watch, degraded, urgent, critical } = policy.edges
    return { edges: { watch, degraded, urgent, critical, basis: 'policy', upToC: DEFAULT_EDGES_UP_TO_C }, makeshift: false }
  }
  let row: Policy['edgesByMaxOperatingC'][number] | undefined
  for (const candidate of policy.edgesByMaxOperatingC) {
    if (candidate.maxOperatingC >= maxOperatingC && (!row || candidate.maxOperatingC < row.maxOperatingC)) row = candidate
  }
  if (row) {
    const { watch, degraded, urgent, critical } = row
    return { edges: { watch, degraded, urgent, critical, basis: 'section', upToC: row.maxOperatingC }, makeshift: false }
  }
  const computed = compute(maxOperatingC)
  if (computed) return { edges: computed, makeshift: false }
  const general = policy.edges
  const hot = policy.edgesAbove75
  return {
    edges: {
      watch: Math.min(general.watch, hot.watch), degraded: Math.min(general.degraded, hot.degraded),
      urgent: Math.min(general.urgent, hot.urgent), critical: Math.min(general.critical, hot.critical), basis: 'policy',
    },
    makeshift: true,
  }
}

/** The edge of a class where the section has its own, because a ratio beside it would else be read by the usual ones; null where those hold. */
export function ownEdge(shown: ConditionClass, { basis, upToC, ...edges }: { basis: string; upToC?: number; watch: number; degraded: number; urgent: number; critical: number }): number | null {
  const usual = basis === 'policy' && upToC !== undefined
  return usual || shown === 'unknown' || shown === 'sound' || shown === 'watch' ? null : edges[shown]
}
