import { rangeFault } from '@/components/calculator/numbers'
import type { Weather } from '@/lib/condition/heat/weather'
import { isRatingWeather } from '@/lib/condition/loading/line-limit'
import type { Policy } from '@/lib/condition/policy'
import type { UnitSystem } from '@/lib/units/format'
import { weatherOf, type LoadingInputs } from './address'
import type { LineSection } from './line-model'
import { AIR, ANGLE, OWN_A, SHARE, SUN, WIND } from './numbers'
import { temperatureRange } from './plot-scale'
import { drawnJoints, limiting, passing, reckonLine, type Limiting, type PassingJoint, type ReckonedSection } from './reckon'

export interface CircuitLimit {
  circuit: string
  /** Null: no splice of it can be reckoned with. */
  found: Limiting | null
}

/** Everything that the page says, from what was put in and the data that came. */
export interface LoadingAnswer {
  weather: Weather
  rating: boolean
  /** Of the current taken: 1 is all of it. */
  share: number
  reckoned: ReckonedSection[]
  over: PassingJoint[]
  limits: CircuitLimit[]
  /** Of all circuits, that which is nearest to its limit; a splice that limits comes before a section that does. */
  tightest: Limiting | null
  range: { fromC: number; toC: number }
}

/** The first figure that cannot be right, with its remedy; undefined where all can. */
export function faultOf(inputs: LoadingInputs, policy: Policy, system: UnitSystem): string | undefined {
  const weather = weatherOf(inputs, policy)
  const figures = [
    [weather.ambientC, AIR], [weather.windMS, WIND], [weather.windAngleDeg, ANGLE], [weather.sunWPerM2, SUN], [inputs.a, OWN_A], [inputs.share, SHARE],
  ] as const
  for (const [value, spec] of figures) {
    const fault = value === null ? undefined : rangeFault(value, spec, system)
    if (fault !== undefined) return `${spec.label}: ${fault}`
  }
  return undefined
}

/** @param inputs without a fault */
export function answerOf(sections: readonly LineSection[], inputs: LoadingInputs, policy: Policy): LoadingAnswer {
  const weather = weatherOf(inputs, policy)
  const share = inputs.load === 'own' ? 1 : (inputs.share ?? 100) / 100
  const reckoned = reckonLine(sections, { kind: inputs.load, ownA: inputs.a, share }, weather, policy)
  const limits = [...new Set(reckoned.map(({ section }) => section.of.circuit))].map((circuit): CircuitLimit => (
    { circuit, found: limiting(reckoned.filter(({ section }) => section.of.circuit === circuit), weather, policy) }))
  const [tightest = null] = limits.flatMap(({ found }) => found ?? []).sort((a, b) => tightness(a) - tightness(b))
  const hottestC = Math.max(weather.ambientC, ...reckoned.filter(({ drawn }) => drawn)
    .flatMap((one) => [one.conductorC ?? Infinity, ...drawnJoints(one).map(({ upperC }) => upperC ?? Infinity)]))
  const limitsC = [policy.limit.temperatureC, ...reckoned.flatMap(({ section }) => section.of.max_operating_c ?? [])]
  return {
    weather, rating: isRatingWeather(weather, policy), share, reckoned, over: passing(reckoned, policy), limits, tightest,
    range: temperatureRange(weather.ambientC, hottestC, limitsC),
  }
}

const SECTION_AFTER_SPLICES = 1e6

function tightness({ limit, section }: Limiting): number {
  const againstA = section.currentA || section.section.of.rating_a || limit.lineA || 1
  return limit.spliceLineA / againstA + (limit.limitedBy === 'splice' ? 0 : SECTION_AFTER_SPLICES)
}
