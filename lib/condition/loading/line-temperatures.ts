import { err, ok, type Result } from '@/lib/result/result'
import type { SpliceBodies } from '../body-of-splice'
import { steadyTemperature } from '../heat/balance'
import { exchangeOf, netLossWPerM, type Exchange } from '../heat/cooling'
import { ohmPerMAt } from '../heat/line-resistance'
import { lowestRoot } from '../heat/lowest-root'
import { bodyRefusal, currentRefusal, cylinderRefusal, HEAT_RANGES, type Refusal } from '../heat/ranges'
import type { LineResistance, Weather } from '../heat/weather'
import type { HeatedJoint } from './line-joint'

/** Steady temperatures of a splice, °C; null where it comes to no rest below 400 °C. */
export interface JointTemperatures {
  /** At the ratio that is believed, and at the one it is believed to lie under. */
  believedC: number | null
  upperC: number | null
}

/** All the digits that check values print; the rest of full precision would cost a frame its time. */
const TOLERANCE_K = 1e-5

/** Why a load and weather could not be used, or null. */
export const loadRefusal = (bodies: SpliceBodies, subconductorA: number, weather: Weather): Refusal | null =>
  bodyRefusal(bodies.conductor, weather) ?? cylinderRefusal(bodies.barrel) ?? currentRefusal(subconductorA)

/**
 * Temperatures of many splices in one weather at one current: IEEE Std 738 with the barrel's diameter and k times the conductor's resistance.
 * What depends on the barrel alone is worked out once for all that share it.
 * @param lineA per phase
 */
export function jointTemperatures(joints: readonly HeatedJoint[], lineA: number, weather: Weather): Result<JointTemperatures[], Refusal> {
  const exchanges = new Map<number, Exchange>()
  const out: JointTemperatures[] = []
  for (const joint of joints) {
    const currentA = lineA / joint.subconductors
    const { barrel } = joint.bodies
    let exchange = exchanges.get(barrel.diameterM)
    if (!exchange) {
      const refusal = loadRefusal(joint.bodies, currentA, weather)
      if (refusal) return err(refusal)
      exchanges.set(barrel.diameterM, exchange = exchangeOf(barrel, weather))
    }
    const squareA2 = currentA * currentA
    const believedC = restC(exchange, joint.resistance, squareA2, weather.ambientC)
    const known = believedC === null || joint.upperK === joint.k
    out.push({ believedC, upperC: known ? believedC : restC(exchange, joint.upperResistance, squareA2, believedC) })
  }
  return ok(out)
}

/** The worse ratio's rest lies above the believed one's: the search begins there. */
const restC = (exchange: Exchange, resistance: LineResistance, squareA2: number, fromC: number): number | null =>
  lowestRoot((surfaceC) => netLossWPerM(exchange, surfaceC) - squareA2 * ohmPerMAt(resistance, surfaceC), fromC, HEAT_RANGES.surfaceC[1], TOLERANCE_K)

/** Steady temperature of the bare conductor of a section, °C; null where it comes to no rest below 400 °C. */
export function conductorTemperature(bodies: SpliceBodies, subconductorA: number, weather: Weather): Result<number | null, Refusal> {
  const found = steadyTemperature(bodies.conductor, subconductorA, weather)
  if (!found.ok) return found
  return ok(found.value.kind === 'steady' ? found.value.temperatureC : null)
}
