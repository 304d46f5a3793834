import { rangeFault } from '@/components/calculator/numbers'
import type { Weather } from '@/lib/condition/heat/weather'
import { allowedA } from '@/lib/condition/governing-limit'
import { isRatingWeather } from '@/lib/condition/loading/line-limit'
import type { Policy } from '@/lib/condition/policy'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import type { UnitSystem } from '@/lib/units/format'
import { weatherOf, type LoadingInputs } from './address'
import type { LineJointJson } from '@/lib/contract/loading'
import { lapsedLimits, limitsInForce, passedLimits, shareAllowed, type PassedLimit, type RegisteredJoint } from './in-force'
import type { LineSection } from './line-model'
import { AIR, ANGLE, OWN_A, SHARE, SUN, WIND } from './numbers'
import { temperatureRange } from './plot-scale'
import { drawnJoints, passing, reckonLine, statedOf, type Limiting, type PassingJoint, type ReckonedSection } from './reckon'

export interface CircuitLimit {
  circuit: string
  /** In the weather taken. Null: no splice of it can be reckoned with. */
  found: Limiting | null
  /** The figure for operations, which no other weather lifts; the same where rating weather was taken. */
  rated: Limiting | null
  /**
   * Splices for which no figure is given and that may allow less, the worst first: they fail without a ratio, or their class is held above what
   * the readings say. They hide no other's figure: `rated` is then what the others allow, and null where none of them limits.
   */
  mayBeLower: LineJointJson[]
  /** The limit in force that its load reaches first; null: none is in force. */
  inForce: RegisteredJoint | null
  /** Limits that have lapsed, that which the load reaches first before the others. */
  lapsed: RegisteredJoint[]
}

/** What leads: whom to ask where a lapsed limit lies lowest, else the limit in force where nothing is advised below it, else what is advised. */
export function leadsWith({ rated, inForce, lapsed }: CircuitLimit): 'ask-engineer' | 'in-force' | 'advised' {
  const advised = rated ? shareAllowed(rated, allowedA(rated.limit.lineA)) : Infinity
  const force = inForce ? shareAllowed(inForce, allowedA(inForce.lineA)) : Infinity
  const [first] = lapsed
  if (first && shareAllowed(first, allowedA(first.lineA)) < Math.min(advised, force)) return 'ask-engineer'
  return inForce && force <= advised ? 'in-force' : 'advised'
}

/** What stands on a circuit whatever a load makes of it. */
export interface Standing { critical: number; urgent: number; unknown: number }

/** Everything that the page says, from what was put in and the data that came. */
export interface LoadingAnswer {
  weather: Weather
  rating: boolean
  /** Of the current taken: 1 is all of it. */
  share: number
  reckoned: ReckonedSection[]
  over: PassingJoint[]
  /** Limits on the register that the current taken would pass. */
  passedLimits: PassedLimit[]
  limits: CircuitLimit[]
  /** Of all circuits, one without a figure, else that which is nearest to its limit; a splice that limits comes before a section that does. */
  lead: CircuitLimit | null
  /** What limits the circuit that leads, where it has a figure. */
  tightest: Limiting | null
  standing: Standing
  /** The temperature axis of each section, in the order of `reckoned`. */
  ranges: { fromC: number; toC: number }[]
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
  const limits = [...new Set(reckoned.map(({ section }) => section.of.circuit))].map((circuit) =>
    circuitLimit(circuit, reckoned.filter(({ section }) => section.of.circuit === circuit), weather, policy))
  const [lead = null] = limits.filter(({ rated, mayBeLower, inForce, lapsed }) => rated !== null || inForce !== null || mayBeLower.length + lapsed.length > 0).sort((a, b) => tightness(a) - tightness(b))
  return {
    weather, rating: isRatingWeather(weather, policy), share, reckoned, over: passing(reckoned, policy), passedLimits: passedLimits(reckoned), limits, lead,
    tightest: lead?.mayBeLower.length === 0 ? lead.found : null, standing: standingOf(sections), ranges: reckoned.map((one) => rangeOf(one, weather, policy)),
  }
}

function circuitLimit(circuit: string, reckoned: readonly ReckonedSection[], weather: Weather, policy: Policy): CircuitLimit {
  const taken = statedOf(reckoned, weather, policy)
  const rated = isRatingWeather(weather, policy) ? taken : statedOf(reckoned, ratingWeatherOf(policy), policy)
  // Of a splice with a limit in force somebody has said what it may carry.
  const mayBeLower = (rated.mayBeLower.length > 0 ? rated.mayBeLower : taken.mayBeLower).filter(({ limit }) => limit?.standing !== 'in-force')
  return { circuit, found: taken.by, rated: rated.by, mayBeLower, inForce: limitsInForce(reckoned)[0] ?? null, lapsed: lapsedLimits(reckoned) }
}

function standingOf(sections: readonly LineSection[]): Standing {
  const classes = sections.flatMap(({ joints, leftOut }) => [...joints, ...leftOut].map(({ of }) => of.class))
  const count = (one: (typeof classes)[number]) => classes.filter((own) => own === one).length
  return { critical: count('critical'), urgent: count('urgent'), unknown: count('unknown') }
}

/** One axis for one section: a tap that runs cool is not drawn at the height of a line that runs hot. */
function rangeOf(one: ReckonedSection, weather: Weather, policy: Policy): { fromC: number; toC: number } {
  const hottestC = Math.max(weather.ambientC, one.conductorC ?? Infinity, ...drawnJoints(one).map(({ upperC }) => upperC ?? Infinity))
  return temperatureRange(weather.ambientC, hottestC, [policy.limit.temperatureC, ...one.section.of.max_operating_c === null ? [] : [one.section.of.max_operating_c]])
}

const SECTION_AFTER_SPLICES = 1e6

function tightness(of: CircuitLimit): number {
  const { rated, mayBeLower, inForce } = of
  const leads = leadsWith(of)
  if (leads === 'ask-engineer' || mayBeLower.length > 0) return -1
  if (leads === 'in-force' && inForce) return shareAllowed(inForce, inForce.lineA)
  if (!rated) return -1
  const { limit, section } = rated
  const againstA = section.currentA || section.section.of.rating_a || limit.lineA || 1
  return limit.spliceLineA / againstA + (limit.limitedBy === 'splice' ? 0 : SECTION_AFTER_SPLICES)
}
