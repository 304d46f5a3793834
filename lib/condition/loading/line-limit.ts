import { ok, type Result } from '@/lib/result/result'
import { currentLimit, whatIfLimit, type CurrentLimit, type LimitFacts, type NoLimit } from '../current-limit'
import { exchangeOf, netLossWPerM } from '../heat/cooling'
import { ohmPerMAt } from '../heat/line-resistance'
import { HEAT_RANGES } from '../heat/ranges'
import type { Weather } from '../heat/weather'
import type { Policy } from '../policy'
import { elevationOf, ratingWeatherOf } from '../rating-weather'
import type { HeatedJoint, SectionOfLine } from './line-joint'

/** Only a weather that is the policy's own in every figure gives the one figure for operations. How high a section lies is no weather. */
export function isRatingWeather(weather: Weather, policy: Policy): boolean {
  const rating = ratingWeatherOf(policy)
  return weather.ambientC === rating.ambientC && weather.windMS === rating.windMS && weather.windAngleDeg === rating.windAngleDeg
    && weather.sunWPerM2 === rating.sunWPerM2
}

/**
 * Line current per phase at which each splice, at the ratio it is believed to lie under, reaches the policy's temperature: not capped by its
 * section. 0 where sun and air alone bring it there. Values in range, as `jointTemperatures` checks them.
 */
export function allowedLineA(joints: readonly HeatedJoint[], weather: Weather, policy: Policy): number[] {
  const { temperatureC } = policy.limit
  const netWPerM = new Map<number, number>()
  return joints.map(({ bodies: { barrel }, subconductors, upperResistance }) => {
    let net = netWPerM.get(barrel.diameterM)
    if (net === undefined) netWPerM.set(barrel.diameterM, net = netLossWPerM(exchangeOf(barrel, weather), temperatureC))
    return net <= 0 ? 0 : Math.sqrt(net / ohmPerMAt(upperResistance, temperatureC)) * subconductors
  })
}

/** The same weather in the air of a section: as thin as it is at its elevation. */
export const weatherOn = (weather: Weather, { elevationM }: Pick<SectionOfLine, 'elevationM'>, policy: Policy): Weather =>
  ({ ...weather, elevationM: elevationOf(elevationM, policy) })

/** The limit of one splice in a weather at its section's elevation, capped by its section: for operations at rating weather, else not a rating. */
export function limitInWeather(
  joint: HeatedJoint, section: SectionOfLine, voltageKv: number | null, weather: Weather, policy: Policy,
): Result<CurrentLimit, NoLimit> {
  const facts: LimitFacts = {
    bodies: joint.bodies, subconductors: joint.subconductors, ratingA: section.ratingA ?? undefined, voltageKv: voltageKv ?? undefined,
    elevationM: section.elevationM ?? undefined,
  }
  return isRatingWeather(weather, policy)
    ? currentLimit(facts, joint.upperK, policy)
    : whatIfLimit(facts, joint.upperK, weatherOn(weather, section, policy), policy.limit.temperatureC, policy)
}

export interface LimitAtAmbient {
  ambientC: number
  limit: CurrentLimit
}

const STEP_K = 2.5

/** How the allowed current of one splice falls as the air warms, the rest of the weather as it is. @param fromC, toC within −50 … 60 */
export function limitAgainstAmbient(
  joint: HeatedJoint, section: SectionOfLine, voltageKv: number | null, weather: Weather, fromC: number, toC: number, policy: Policy,
): Result<LimitAtAmbient[], NoLimit> {
  const out: LimitAtAmbient[] = []
  const [coldest, hottest] = HEAT_RANGES.ambientC
  const [startC, endC] = [Math.max(fromC, coldest), Math.min(toC, hottest)]
  const steps = Math.max(1, Math.round((endC - startC) / STEP_K))
  for (let i = 0; i <= steps; i++) {
    const ambientC = startC + ((endC - startC) * i) / steps
    const limit = limitInWeather(joint, section, voltageKv, { ...weather, ambientC }, policy)
    if (!limit.ok) return limit
    out.push({ ambientC, limit: limit.value })
  }
  return ok(out)
}
