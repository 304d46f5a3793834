import type { CurrentLimit } from '@/lib/condition/current-limit'
import type { Refusal } from '@/lib/condition/heat/ranges'
import type { Weather } from '@/lib/condition/heat/weather'
import { allowedLineA, limitInWeather } from '@/lib/condition/loading/line-limit'
import { conductorTemperature, jointTemperatures, type JointTemperatures } from '@/lib/condition/loading/line-temperatures'
import type { Policy } from '@/lib/condition/policy'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import type { LoadKind } from './address'
import type { LineJoint, LineSection } from './line-model'

/** What flows: which of the known currents, how much of it, or a figure of one's own. */
export interface Load {
  kind: LoadKind
  ownA: number | null
  /** 1 is the current as it is. */
  share: number
}

export interface ReckonedJoint extends LineJoint, JointTemperatures {
  /** Line current per phase at which it would reach the policy's temperature. Not capped by its section, so it is compared and never shown. */
  spliceA: number
}

export interface ReckonedSection {
  section: LineSection
  /** Per phase; null: not known. */
  currentA: number | null
  refusal: Refusal | null
  /** Null: no rest below 400 °C, or nothing to reckon from. */
  conductorC: number | null
  /** False where there is no current, no conductor, or a value out of range: then the temperatures mean nothing. */
  drawn: boolean
  joints: ReckonedJoint[]
}

export function currentOf({ of }: LineSection, { kind, ownA, share }: Load): number | null {
  const known: Record<LoadKind, number | null | undefined> = {
    last: of.last_load?.current_a, peak: of.expected_peak?.current_a, contingency: of.post_contingency?.current_a, rating: of.rating_a,
    emergency: of.rating_emergency_a, own: ownA,
  }
  const fullA = known[kind] ?? null
  return fullA === null ? null : fullA * share
}

/** Everything that follows from a load and a weather: done anew with every move of a slider, so nothing here asks anybody. */
export function reckonLine(sections: readonly LineSection[], load: Load, weather: Weather, policy: Policy): ReckonedSection[] {
  return sections.map((section): ReckonedSection => {
    const currentA = currentOf(section, load)
    const nothing = { section, currentA, refusal: null, conductorC: null, drawn: false, joints: [] }
    if (section.bodies === null) return nothing
    const heated = section.joints.map((joint) => joint.heated)
    // What a splice allows is known without a current too.
    const flowingA = currentA ?? 0
    const temperatures = jointTemperatures(heated, flowingA, weather)
    const conductor = conductorTemperature(section.bodies, flowingA / Math.max(1, section.of.subconductors), weather)
    if (!temperatures.ok) return { ...nothing, refusal: temperatures.error }
    if (!conductor.ok) return { ...nothing, refusal: conductor.error }
    const allowed = allowedLineA(heated, weather, policy)
    return {
      section, currentA, refusal: null, conductorC: conductor.value, drawn: currentA !== null,
      // Spelled out: a spread here takes longer than the heat balance.
      joints: section.joints.map(({ of, heated: body }, i): ReckonedJoint => {
        const found = temperatures.value[i]
        return { of, heated: body, believedC: found?.believedC ?? null, upperC: found?.upperC ?? null, spliceA: allowed[i] ?? 0 }
      }),
    }
  })
}

/** Those with a temperature. */
export const drawnJoints = ({ drawn, joints }: ReckonedSection): readonly ReckonedJoint[] => (drawn ? joints : [])

const hotness = ({ upperC }: ReckonedJoint): number => upperC ?? Infinity

export const isFailing = ({ class: of }: Pick<LineJoint['of'], 'class'>): boolean => of === 'urgent' || of === 'critical'

/** Failing by its heat or its strands, and no ratio says how far: nothing can be reckoned with, and nothing be cleared. */
export const isBlind = ({ of }: Pick<LineJoint, 'of'>): boolean => !isRead({ of }) && isFailing(of)

export interface Allowance { lineA: number; by: 'splice' | 'section' }

/** What a splice allows, never over its section. Null where no figure is given for it: unread, or its class is held above what the readings say. */
export function allowanceOf({ of, spliceA }: Pick<ReckonedJoint, 'of' | 'spliceA'>, { section }: Pick<ReckonedSection, 'section'>): Allowance | null {
  if (!of.figure) return null
  return section.capA !== null && spliceA >= section.capA ? { lineA: section.capA, by: 'section' } : { lineA: spliceA, by: 'splice' }
}

/** An unread splice never counts as one that would hold, nor as one that would not. */
export const isRead = ({ of }: Pick<LineJoint, 'of'>): boolean => of.basis !== 'unread'
export const wouldPass = (joint: ReckonedJoint, policy: Policy): boolean => hotness(joint) > policy.limit.temperatureC

export interface PassingJoint { joint: ReckonedJoint; section: ReckonedSection }

/** Whether it passes at the ratio that is believed; else only at the one it is believed to lie under. */
export const passesAsBelieved = ({ believedC }: Pick<ReckonedJoint, 'believedC'>, policy: Policy): boolean => (believedC ?? Infinity) > policy.limit.temperatureC

/** Splices that would pass the policy's temperature, or could at the ratio they are believed to lie under, the hottest first. */
export function passing(sections: readonly ReckonedSection[], policy: Policy): PassingJoint[] {
  return sections
    .flatMap((section) => drawnJoints(section).filter((joint) => isRead(joint) && wouldPass(joint, policy)).map((joint) => ({ joint, section })))
    .sort((a, b) => (hotness(b.joint) === hotness(a.joint) ? b.joint.of.upper_k - a.joint.of.upper_k : hotness(b.joint) - hotness(a.joint)))
}

export interface Limiting {
  section: ReckonedSection
  joint: ReckonedJoint
  limit: CurrentLimit
}

/**
 * The splice of a circuit that would reach the policy's temperature first as its load grows: the least allowed over flowing current, or over
 * the section's rating where nobody knows what flows. Null where no read splice can be reckoned with.
 */
export function limiting(sections: readonly ReckonedSection[], weather: Weather, policy: Policy, allowedOf = taken, counts: (joint: ReckonedJoint) => boolean = isRead): Limiting | null {
  let found: { section: ReckonedSection; joint: ReckonedJoint; margin: number } | null = null
  for (const section of sections) {
    const againstA = section.currentA || section.section.of.rating_a || 1
    const allowedA = allowedOf(section)
    for (const [i, joint] of section.joints.entries()) {
      const margin = (allowedA[i] ?? 0) / againstA
      if (counts(joint) && (found === null || margin < found.margin)) found = { section, joint, margin }
    }
  }
  if (!found) return null
  const { section, joint } = found
  const limit = limitInWeather(joint.heated, section.section.facts, section.section.of.voltage_kv, weather, policy)
  return limit.ok ? { section, joint, limit: limit.value } : null
}

const taken = ({ joints }: ReckonedSection): number[] => joints.map(({ spliceA }) => spliceA)

/** As `limiting`, in rating weather whatever weather was taken: the one figure for operations. */
export function limitingAtRating(sections: readonly ReckonedSection[], policy: Policy, counts?: (joint: ReckonedJoint) => boolean): Limiting | null {
  const weather = ratingWeatherOf(policy)
  return limiting(sections, weather, policy, ({ joints }) => allowedLineA(joints.map(({ heated }) => heated), weather, policy), counts)
}

/** What the splices with a figure of their own allow where another has none: the circuit carries no more. Null where none of them limits its section. */
export function notMoreThan(sections: readonly ReckonedSection[], policy: Policy): Limiting | null {
  const found = limitingAtRating(sections, policy, ({ of }) => of.figure)
  return found?.limit.limitedBy === 'splice' ? found : null
}

/** Splices without a usable ratio, how many, and the ratio that they were taken to lie under; those that fail all the same stand apart. */
export function unread(sections: readonly ReckonedSection[]) {
  const joints = sections.flatMap(({ joints: all }) => all.filter((joint) => !isRead(joint)))
  const unknown = joints.filter((joint) => !isBlind(joint))
  return { count: unknown.length, upperK: Math.max(...unknown.map(({ of }) => of.upper_k)), blind: joints.filter(isBlind) }
}
