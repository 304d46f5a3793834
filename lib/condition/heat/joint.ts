import { err, ok, type Result } from '@/lib/result/result'
import { steady, type Steady } from './balance'
import { exchangeOf, netLossWPerM } from './cooling'
import { ohmPerMAt, scaledResistance } from './line-resistance'
import { bodyRefusal, currentRefusal, cylinderRefusal, kRefusal, surfaceRefusal, type Refusal } from './ranges'
import type { Cylinder, HeatedCylinder, Weather } from './weather'

/** A splice as a cylinder of its barrel's diameter with k times its conductor's resistance per metre at every temperature. */
export const jointBody = (conductor: HeatedCylinder, { diameterM, emissivity, absorptivity }: Cylinder, k: number): HeatedCylinder =>
  ({ diameterM, emissivity, absorptivity, resistance: scaledResistance(conductor.resistance, k) })

/** Everything but the k, the current and the temperature. */
export const jointRefusal = (conductor: HeatedCylinder, barrel: Cylinder, weather: Weather): Refusal | null =>
  bodyRefusal(conductor, weather) ?? cylinderRefusal(barrel) ?? (barrel.diameterM >= conductor.diameterM ? null : narrow(conductor, barrel))

const narrow = (conductor: HeatedCylinder, barrel: Cylinder): Refusal =>
  ({ quantity: 'diameterM', value: barrel.diameterM, least: conductor.diameterM, greatest: 0.08 })

/**
 * Temperature of a splice at a steady current, °C; no heat runs along the line, which overstates a short hot splice.
 * @param k 0.05 … 100
 * @param currentA per subconductor, 0 … 3000
 */
export const jointTemperature = (
  conductor: HeatedCylinder, barrel: Cylinder, k: number, currentA: number, weather: Weather,
): Result<Steady, Refusal> => {
  const refusal = jointRefusal(conductor, barrel, weather) ?? kRefusal(k) ?? currentRefusal(currentA)
  return refusal ? err(refusal) : ok(steady(jointBody(conductor, barrel, k), currentA, weather))
}

/** No k can be told: without a current nothing is heated, and a splice that needs no heat to be as cold as this tells nothing either. */
export type NoK = { kind: 'no-current' } | { kind: 'colder-than-model'; k: number }

/** Below it the splice is colder than sun and air would have it. */
const LEAST_BELIEVABLE_K = 0.1

/** Less than this heats nothing that could be measured. */
const LEAST_CURRENT_A = 0.1

/** k that gives a splice its temperature at a current, closed form. @param currentA per subconductor, over 0 */
export function kFromTemperature(
  conductor: HeatedCylinder, barrel: Cylinder, surfaceC: number, currentA: number, weather: Weather,
): Result<number, Refusal | NoK> {
  const refusal = jointRefusal(conductor, barrel, weather) ?? currentRefusal(currentA) ?? surfaceRefusal(surfaceC)
  if (refusal) return err(refusal)
  if (currentA < LEAST_CURRENT_A) return err({ kind: 'no-current' })
  const k = netLossWPerM(exchangeOf(barrel, weather), surfaceC) / (currentA * currentA * ohmPerMAt(conductor.resistance, surfaceC))
  if (k < LEAST_BELIEVABLE_K) return err({ kind: 'colder-than-model', k })
  const tooMuch = kRefusal(k)
  return tooMuch ? err(tooMuch) : ok(k)
}
