import type { ConditionClass } from '@/lib/condition'
import { formatCurrent, formatTemperatureLimit, type UnitSystem } from '@/lib/units/format'
import type { StoredAssessment } from './assessment'

/** The edge of a class where the section has its own, because a ratio beside it would else be read by the usual ones; null where those hold. */
export function ownEdge(shown: ConditionClass, { basis, upToC, ...edges }: StoredAssessment['edges']): number | null {
  const usual = basis === 'policy' && upToC !== undefined
  return usual || shown === 'unknown' || shown === 'sound' || shown === 'watch' ? null : edges[shown]
}

/** Nearer than this a rating counts as the current that brings the conductor to its temperature: ratings are rounded figures. */
const RATING_TOLERANCE = 0.05

export interface EdgesOfSection {
  max_operating_c: number | null
  rating_a?: number | null
  /** Per phase, at which edges are computed; null where it is not known. */
  edges_at_a?: number | null
}

/** The section's maximum operating temperature, which edges were taken for it, and what that does to confidence. */
export function edgesText(
  { edges, flags, policyVersion }: Pick<StoredAssessment, 'edges' | 'flags' | 'policyVersion'>,
  { max_operating_c: maxOperatingC, rating_a: ratingA = null, edges_at_a: edgesAtA = null }: EdgesOfSection, system: UnitSystem,
): string {
  const limit = (limitC: number): string => formatTemperatureLimit(limitC, system)
  const section = maxOperatingC === null
    ? 'The section’s maximum operating temperature is not known'
    : `The section’s maximum operating temperature is ${limit(maxOperatingC)}`
  if (flags.includes('edges-default-above-75')) {
    return `${section}, and policy ${policyVersion} sets no edges for that: its cautious edges for hotter sections stand in, and confidence stays low.`
  }
  if (edges.basis === 'computed') {
    const reached = `the current that brings the conductor to ${maxOperatingC === null ? 'it' : limit(maxOperatingC)} in the rating weather of policy ${policyVersion}`
    return `${section}. Edges computed for this conductor and barrel at ${edgesAtA === null ? reached : `${formatCurrent(edgesAtA)} per phase, ${reached}`}.${misfit(ratingA, edgesAtA)}`
  }
  const upTo = edges.upToC === undefined ? '' : ` for sections up to ${limit(edges.upToC)}`
  return `${section}. Edges: ${edges.basis === 'section' ? 'those set' : 'the general ones'}${upTo}, policy ${policyVersion}.`
}

/** Said where the listed rating is another current than that of the edges: the temperatures of the sheet at the rating then do not agree with them. */
function misfit(ratingA: number | null, edgesAtA: number | null): string {
  if (ratingA === null || edgesAtA === null || Math.abs(ratingA / edgesAtA - 1) <= RATING_TOLERANCE) return ''
  return ratingA < edgesAtA
    ? ` The listed rating of ${formatCurrent(ratingA)} does not bring it there: ask the rating engineer which holds.`
    : ` The listed rating of ${formatCurrent(ratingA)} brings it higher: ask the rating engineer which holds.`
}
