import { err, ok, type Result } from '@/lib/result/result'
import { bodiesOf, type SpliceBodies } from './body-of-splice'
import type { Context } from './context'
import { currentAtA } from './heat/balance'
import { jointBody } from './heat/joint'
import { HEAT_RANGES, kRefusal, type Refusal } from './heat/ranges'
import type { Weather } from './heat/weather'
import type { Policy } from './policy'
import { ratingWeatherOf } from './rating-weather'

/** Section and fitting as a limit needs them. */
export interface LimitFacts {
  bodies: SpliceBodies
  subconductors: number
  /** Of the section, per phase; absent: the conductor is rated at the policy's temperature. */
  ratingA?: number
  /** Between phases; absent: no MVA. */
  voltageKv?: number
  /** Of the section; absent: that of rating weather. */
  elevationM?: number
}

/** Thermal only: it says nothing of tension, fault current or further ageing. */
export interface CurrentLimit {
  /** One figure goes to operations, at rating weather; everything else is no rating and never raises it. */
  use: 'for-operations' | 'not-a-rating'
  /** Line current per phase. */
  lineA: number
  mva: number | null
  /** What the splice alone would allow, per phase, and per subconductor with equal shares taken. */
  spliceLineA: number
  spliceSubconductorA: number
  /** What the section allows, per phase, and where that comes from. */
  sectionA: number
  sectionFrom: 'rating' | 'conductor'
  /** Section where the splice would allow more. */
  limitedBy: 'splice' | 'section'
  spliceC: number
  /** Upper bound of k. */
  k: number
  weather: Weather
}

/** No figure: an engineer is to be asked. */
export type NoLimit =
  | { kind: 'no-conductor' }
  | { kind: 'no-ratio' }
  /** No temperature over the connector class is known to be harmless for a failing splice. */
  | { kind: 'temperature-not-offered'; k: number; upToK: number; temperatureC: number }
  | Refusal

/** Temperatures a limit can be asked for, °C: cautious, the policy's own, and the connector class of copper (common practice). */
const CAUTIOUS_C = 75
const HOTTEST_FOR_ANY_SPLICE_C = 100

/** What may be chosen for a splice of this ratio: the emergency temperature only where it is not failing. */
export function offeredTemperaturesC(kUpper: number, policy: Policy): number[] {
  const { temperatureC, emergencyC, emergencyUpToK } = policy.limit
  const offered = [CAUTIOUS_C, temperatureC, HOTTEST_FOR_ANY_SPLICE_C, ...(kUpper <= emergencyUpToK ? [emergencyC] : [])]
  return [...new Set(offered)].sort((a, b) => a - b)
}

/** The one figure for operations: rating weather, the policy's temperature, the upper bound of k, never over the section's rating. */
export const currentLimit = (facts: LimitFacts, kUpper: number, policy: Policy): Result<CurrentLimit, NoLimit> =>
  limitAt(facts, kUpper, ratingWeatherOf(policy, facts.elevationM), policy.limit.temperatureC, 'for-operations', policy)

/** In survey weather, in weather somebody tries, at another temperature: no rating. */
export const whatIfLimit = (
  facts: LimitFacts, kUpper: number, weather: Weather, spliceC: number, policy: Policy,
): Result<CurrentLimit, NoLimit> => limitAt(facts, kUpper, weather, spliceC, 'not-a-rating', policy)

function limitAt(
  facts: LimitFacts, kUpper: number, weather: Weather, spliceC: number, use: CurrentLimit['use'], policy: Policy,
): Result<CurrentLimit, NoLimit> {
  if (!Number.isFinite(kUpper)) return err({ kind: 'no-ratio' })
  const { emergencyUpToK: upToK } = policy.limit
  if (spliceC > HOTTEST_FOR_ANY_SPLICE_C && kUpper > upToK) return err({ kind: 'temperature-not-offered', k: kUpper, upToK, temperatureC: spliceC })
  const k = Math.max(kUpper, HEAT_RANGES.k[0])
  const refusal = kRefusal(k)
  if (refusal) return err(refusal)
  const splice = currentAtA(jointBody(facts.bodies.conductor, facts.bodies.barrel, k), spliceC, weather, k)
  if (!splice.ok) return splice
  const section = sectionLimit(facts, policy)
  if (!section.ok) return section
  const spliceSubconductorA = splice.value.currentA
  const spliceLineA = spliceSubconductorA * facts.subconductors
  const lineA = Math.min(spliceLineA, section.value.lineA)
  return ok({
    use, lineA, mva: facts.voltageKv === undefined ? null : mvaOf(lineA, facts.voltageKv), spliceLineA, spliceSubconductorA,
    sectionA: section.value.lineA, sectionFrom: section.value.from, limitedBy: spliceLineA < section.value.lineA ? 'splice' : 'section',
    spliceC, k, weather,
  })
}

/** What a section allows. Always at rating weather: kinder weather of the day lifts no rating. */
export function sectionLimit(facts: Pick<LimitFacts, 'bodies' | 'subconductors' | 'ratingA' | 'elevationM'>, policy: Policy): Result<{ lineA: number; from: CurrentLimit['sectionFrom'] }, Refusal> {
  if (facts.ratingA !== undefined) return ok({ lineA: facts.ratingA, from: 'rating' })
  const own = currentAtA(facts.bodies.conductor, policy.limit.conductorC, ratingWeatherOf(policy, facts.elevationM))
  return own.ok ? ok({ lineA: own.value.currentA * facts.subconductors, from: 'conductor' }) : own
}

/** Apparent power of three phases, MVA. */
export const mvaOf = (lineA: number, voltageKv: number): number => (Math.sqrt(3) * voltageKv * lineA) / 1000

/** A splice of the network in rating weather's surfaces. */
export function limitFactsOf(context: Pick<Context, 'conductor' | 'facts' | 'policy'>, voltageKv?: number): Result<LimitFacts, NoLimit> {
  const { emissivity, absorptivity } = context.policy.ratingWeather
  const bodies = bodiesOf(context, emissivity, absorptivity)
  if (!bodies) return err({ kind: 'no-conductor' })
  return ok({ bodies, subconductors: Math.max(1, context.facts.subconductors), ratingA: context.facts.ratingA, voltageKv, elevationM: context.facts.elevationM })
}
