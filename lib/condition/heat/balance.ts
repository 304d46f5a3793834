import { err, ok, type Result } from '@/lib/result/result'
import { exchangeOf, netLossWPerM } from './cooling'
import { ohmPerMAt } from './line-resistance'
import { lowestRoot } from './lowest-root'
import { bodyRefusal, currentRefusal, HEAT_RANGES, surfaceRefusal, type Refusal } from './ranges'
import type { HeatedCylinder, Weather } from './weather'

const HOTTEST_C = HEAT_RANGES.surfaceC[1]
const TOLERANCE_K = 1e-9

/** Where a body comes to rest, or that it does not do so below 400 °C. */
export type Steady = { kind: 'steady'; temperatureC: number } | { kind: 'runaway' }

/**
 * Temperature that a steady current gives, °C: IEEE Std 738-2012, the lowest temperature at which cooling equals heating.
 * @param currentA per subconductor, 0 … 3000
 * @param k how many times a bare conductor's resistance the body has
 */
export function steadyTemperature(body: HeatedCylinder, currentA: number, weather: Weather, k = 1): Result<Steady, Refusal> {
  const refusal = bodyRefusal(body, weather, k) ?? currentRefusal(currentA)
  return refusal ? err(refusal) : ok(steady(body, currentA, weather))
}

/** The same for values already known to be in range. */
export function steady(body: HeatedCylinder, currentA: number, weather: Weather): Steady {
  const exchange = exchangeOf(body, weather)
  const squareA2 = currentA * currentA
  const { resistance } = body
  const temperatureC = lowestRoot(
    (surfaceC) => netLossWPerM(exchange, surfaceC) - squareA2 * ohmPerMAt(resistance, surfaceC), weather.ambientC, HOTTEST_C, TOLERANCE_K,
  )
  return temperatureC === null ? { kind: 'runaway' } : { kind: 'steady', temperatureC }
}

export interface Ampacity {
  currentA: number
  /** True where sun and air alone bring the body over the temperature: no current may flow, and `currentA` is 0. */
  sunAlone: boolean
}

/** Steady current at which a body has a temperature, A per subconductor (IEEE Std 738-2012). */
export function currentAtA(body: HeatedCylinder, surfaceC: number, weather: Weather, k = 1): Result<Ampacity, Refusal> {
  const refusal = bodyRefusal(body, weather, k) ?? surfaceRefusal(surfaceC)
  if (refusal) return err(refusal)
  const netWPerM = netLossWPerM(exchangeOf(body, weather), surfaceC)
  if (netWPerM <= 0) return ok({ currentA: 0, sunAlone: true })
  return ok({ currentA: Math.sqrt(netWPerM / ohmPerMAt(body.resistance, surfaceC)), sunAlone: false })
}
