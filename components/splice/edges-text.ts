import { formatCurrent, formatPercent, formatTemperatureLimit, formatWholeTemperature, type UnitSystem } from '@/lib/units/format'
import type { StoredAssessment } from './assessment'

/** Nearer than this a rating counts as the current that brings the conductor to its temperature: ratings are rounded figures. */
const RATING_TOLERANCE = 0.05

export interface EdgesOfSection {
  max_operating_c: number | null
  rating_a?: number | null
  /** Per phase, at which edges are computed; null where it is not known. */
  edges_at_a?: number | null
  /** Of the conductor, at the rating in rating weather; null where it is not known. */
  conductor_at_rating_c?: number | null
}

/** The section's maximum operating temperature, which edges were taken for it, and what that does to confidence. */
export function edgesText(
  { edges, flags, policyVersion }: Pick<StoredAssessment, 'edges' | 'flags' | 'policyVersion'>,
  of: EdgesOfSection, system: UnitSystem,
): string {
  const { max_operating_c: maxOperatingC, edges_at_a: edgesAtA = null } = of
  const limit = (limitC: number): string => formatTemperatureLimit(limitC, system)
  const section = maxOperatingC === null
    ? 'The section’s maximum operating temperature is not known'
    : `The section’s maximum operating temperature is ${limit(maxOperatingC)}`
  if (flags.includes('edges-default-above-75')) {
    return `${section}, and policy ${policyVersion} sets no edges for that: its cautious edges for hotter sections stand in, and confidence stays low.`
  }
  if (edges.basis === 'computed') {
    const reached = `the current that brings the conductor to ${maxOperatingC === null ? 'it' : limit(maxOperatingC)} in the rating weather of policy ${policyVersion}`
    return `${section}. Edges computed for this conductor and barrel at ${edgesAtA === null ? reached : `${formatCurrent(edgesAtA)} per phase, ${reached}`}.${misfit(of)}`
  }
  const upTo = edges.upToC === undefined ? '' : ` for sections up to ${limit(edges.upToC)}`
  return `${section}. Edges: ${edges.basis === 'section' ? 'those set' : 'the general ones'}${upTo}, policy ${policyVersion}.`
}

/** By how much of it the listed rating lies above the current that brings the conductor to its own limit; null where the two agree or one is not known. */
function ratingOver({ rating_a: ratingA = null, edges_at_a: edgesAtA = null }: EdgesOfSection): number | null {
  if (ratingA === null || edgesAtA === null || edgesAtA <= 0) return null
  const over = ratingA / edgesAtA - 1
  return Math.abs(over) > RATING_TOLERANCE ? over : null
}

/** Beside the edges, where the listed rating is another current than theirs: the temperatures of the sheet at the rating then do not agree with them. */
function misfit(of: EdgesOfSection): string {
  const over = ratingOver(of)
  return over === null ? '' : ` The listed rating of ${formatCurrent(of.rating_a ?? 0)} is ${formatPercent(Math.abs(over))} ${over < 0 ? 'lower' : 'higher'}.`
}

/**
 * A section whose listed rating is not what its conductor carries at its own temperature limit in rating weather: which way, by how much, and whom to
 * ask. Empty where they agree, or one of them is not known.
 */
export function ratingMismatch(of: EdgesOfSection, system: UnitSystem): string {
  const over = ratingOver(of)
  const { rating_a: ratingA = null, edges_at_a: edgesAtA = null, max_operating_c: limitC, conductor_at_rating_c: atRatingC = null } = of
  if (over === null || ratingA === null || edgesAtA === null || limitC === null) return ''
  const [limit, rating] = [formatTemperatureLimit(limitC, system), formatCurrent(ratingA)]
  const brings = atRatingC === null ? '' : `${rating} brings the conductor to ${formatWholeTemperature(atRatingC, system)}, and `
  return `The section’s listed rating and its conductor’s limit of ${limit} do not agree in rating weather: ${brings}${limit} takes ${formatCurrent(edgesAtA)}. The rating is `
    + `${formatCurrent(Math.abs(ratingA - edgesAtA))} (${formatPercent(Math.abs(over))}) ${over < 0 ? 'below' : 'above'} that. Ask the rating engineer which holds.`
}
