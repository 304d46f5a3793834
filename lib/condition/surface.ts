import { YEAR_MS } from './limits'
import type { Policy } from './policy'
import type { InfraredEvidence, SpliceFacts } from './types'

/** How long metal has weathered when a picture was taken; 'stated': somebody says how well it gives off heat. */
export type SurfaceAge = 'new' | 'young' | 'weathered' | 'stated'

/** How well metal truly gives off heat, whatever a camera had set. */
export interface Surface {
  emissivity: number
  age: SurfaceAge
  /** False where weathered metal is taken because nobody noted when it was put up. */
  ageKnown: boolean
}

export interface Surfaces {
  barrel: Surface
  conductor: Surface
}

/**
 * The true surfaces in a picture, by policy and age: a new sleeve on an old conductor is bright, and its conductor is not. No file says when a
 * conductor was strung, so it counts as weathered.
 */
export function surfacesOf(
  { takenAtMs, afterRepair }: Pick<InfraredEvidence, 'takenAtMs' | 'afterRepair'>, { installedAtMs, surfaceEmissivity }: Pick<SpliceFacts, 'installedAtMs' | 'surfaceEmissivity'>,
  { radiometry }: Pick<Policy, 'radiometry'>,
): Surfaces {
  if (surfaceEmissivity !== undefined) {
    const stated: Surface = { emissivity: surfaceEmissivity, age: 'stated', ageKnown: true }
    return { barrel: stated, conductor: stated }
  }
  const unknown: Surface = { emissivity: radiometry.emissivity, age: 'weathered', ageKnown: false }
  if (afterRepair) return { barrel: { emissivity: radiometry.newEmissivity, age: 'new', ageKnown: true }, conductor: unknown }
  // Taken before the day on record, it shows another fitting, or the day is wrong: neither tells an age.
  if (takenAtMs === undefined || installedAtMs === undefined || takenAtMs < installedAtMs) return { barrel: unknown, conductor: unknown }
  return { barrel: ofAge((takenAtMs - installedAtMs) / YEAR_MS, radiometry), conductor: unknown }
}

function ofAge(years: number, { emissivity, newEmissivity, youngEmissivity, youngFromYears, weatheredFromYears }: Policy['radiometry']): Surface {
  if (years >= weatheredFromYears) return { emissivity, age: 'weathered', ageKnown: true }
  return years < youngFromYears
    ? { emissivity: newEmissivity, age: 'new', ageKnown: true }
    : { emissivity: youngEmissivity, age: 'young', ageKnown: true }
}
