import { axialProfile, type AlongLine } from './fins'
import { lowestRoot } from './lowest-root'
import type { Cylinder, HeatedCylinder, Weather } from './weather'

/** Steps of the search from the ratio without heat along the line, and how far it goes, in ln k: fivefold. */
const STEP = 0.1
const STEPS = 16
const TOLERANCE = 1e-10

/**
 * How many times the ratio that a picture gives without heat along the line a splice really has, if the middle of its barrel shows the temperature:
 * over 1 where it is hotter than its conductor, since a short barrel gives part of its heat to the conductor and reads low; under 1 where it is colder.
 * Found along the fins of `axialProfile`.
 * @param lumpedK as `kFromTemperature` has it
 * @param currentA per subconductor
 * @returns null where no ratio within the search gives the temperature: near runaway the fins hold no longer
 */
export function alongLineFactor(
  conductor: HeatedCylinder, barrel: Cylinder, lumpedK: number, middleC: number, along: AlongLine, currentA: number, weather: Weather,
): number | null {
  const start = Math.log(lumpedK)
  const overK = (lnFactor: number): number | null => {
    const profile = axialProfile(conductor, barrel, Math.exp(start + lnFactor), along, currentA, weather)
    return profile.ok ? profile.value.centreC - middleC : null
  }
  let before = overK(0)
  if (before === null) return null
  if (before === 0) return 1
  const way = before < 0 ? 1 : -1
  for (let step = 0; step < STEPS; step++) {
    const now = overK(way * (step + 1) * STEP)
    // Further on the temperature has to come nearer: what turns back lies beyond where the fins hold.
    if (now === null || (now - before) * way <= 0) return null
    if (now * way >= 0) {
      const root = lowestRoot((more) => way * (overK(way * (step * STEP + more)) ?? 0), 0, STEP, TOLERANCE)
      return root === null ? null : Math.exp(way * (step * STEP + root))
    }
    before = now
  }
  return null
}
