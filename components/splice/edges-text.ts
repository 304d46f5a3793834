import type { ConditionClass } from '@/lib/condition'
import { formatTemperatureLimit, type UnitSystem } from '@/lib/units/format'
import type { StoredAssessment } from './assessment'

/** The edge of a class where the section has its own, because a ratio beside it would else be read by the usual ones; null where those hold. */
export function ownEdge(shown: ConditionClass, { basis, upToC, ...edges }: StoredAssessment['edges']): number | null {
  const usual = basis === 'policy' && upToC !== undefined
  return usual || shown === 'unknown' || shown === 'sound' || shown === 'watch' ? null : edges[shown]
}

/** The section's maximum operating temperature, which edges were taken for it, and what that does to confidence. */
export function edgesText(
  { edges, flags, policyVersion }: Pick<StoredAssessment, 'edges' | 'flags' | 'policyVersion'>, maxOperatingC: number | null, system: UnitSystem,
): string {
  const limit = (limitC: number): string => formatTemperatureLimit(limitC, system)
  const section = maxOperatingC === null
    ? 'The section’s maximum operating temperature is not known'
    : `The section’s maximum operating temperature is ${limit(maxOperatingC)}`
  if (flags.includes('edges-default-above-75')) {
    return `${section}, and policy ${policyVersion} sets no edges for that: its cautious edges for hotter sections stand in, and confidence stays low.`
  }
  if (edges.basis === 'computed') {
    return `${section}. Edges computed for this conductor, barrel and temperature in the rating weather of policy ${policyVersion}.`
  }
  const upTo = edges.upToC === undefined ? '' : ` for sections up to ${limit(edges.upToC)}`
  return `${section}. Edges: ${edges.basis === 'section' ? 'those set' : 'the general ones'}${upTo}, policy ${policyVersion}.`
}
