import { rankOf } from '@/lib/condition/classify'
import type { CurrentLimit } from '@/lib/condition/current-limit'
import type { Refusal } from '@/lib/condition/heat/ranges'
import type { Weather } from '@/lib/condition/heat/weather'
import { allowedLineA, limitInWeather, weatherOn } from '@/lib/condition/loading/line-limit'
import { conductorTemperature, jointTemperatures, type JointTemperatures } from '@/lib/condition/loading/line-temperatures'
import { hasRatio } from '@/lib/condition/loading/carried-k'
import { countsBy, statedTogether, type Limits } from '@/lib/condition/loading/stated-limit'
import type { Policy } from '@/lib/condition/policy'
import type { LineJointJson } from '@/lib/contract/loading'
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
    const here = weatherOn(weather, section.facts, policy)
    const temperatures = jointTemperatures(heated, flowingA, here)
    const conductor = conductorTemperature(section.bodies, flowingA / Math.max(1, section.of.subconductors), here)
    if (!temperatures.ok) return { ...nothing, refusal: temperatures.error }
    if (!conductor.ok) return { ...nothing, refusal: conductor.error }
    const allowed = allowedLineA(heated, here, policy)
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

/** Degraded or worse by its heat or its strands, and no ratio says how far: nothing can be reckoned with, and nothing be cleared. */
export const isBlind = ({ of }: Pick<LineJoint, 'of'>): boolean => !isRead({ of }) && of.class !== 'unknown' && rankOf(of.class) >= rankOf('degraded')

export interface Allowance { lineA: number; by: 'splice' | 'section' }

/** What a splice allows, never over its section. Null where no figure is given for it: unread, or its class is held above what the readings say. */
export function allowanceOf({ of, spliceA }: Pick<ReckonedJoint, 'of' | 'spliceA'>, { section }: Pick<ReckonedSection, 'section'>): Allowance | null {
  if (!of.figure) return null
  return section.capA !== null && spliceA >= section.capA ? { lineA: section.capA, by: 'section' } : { lineA: spliceA, by: 'splice' }
}

/** An unread splice never counts as one that would hold, nor as one that would not. */
export const isRead = ({ of }: Pick<LineJoint, 'of'>): boolean => hasRatio(of)
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
function limiting(sections: readonly ReckonedSection[], weather: Weather, policy: Policy, allowedOf: (section: ReckonedSection) => readonly number[]): Limiting | null {
  let found: { section: ReckonedSection; joint: ReckonedJoint; margin: number } | null = null
  for (const section of sections) {
    const againstA = section.currentA || section.section.of.rating_a || 1
    const allowedA = allowedOf(section)
    for (const [i, joint] of section.joints.entries()) {
      const margin = (allowedA[i] ?? 0) / againstA
      if (isRead(joint) && (found === null || margin < found.margin)) found = { section, joint, margin }
    }
  }
  return found && limitOf(found, weather, policy)
}

function limitOf({ section, joint }: Pick<Limiting, 'section' | 'joint'>, weather: Weather, policy: Policy): Limiting | null {
  const limit = limitInWeather(joint.heated, section.section.facts, section.section.of.voltage_kv, weather, policy)
  return limit.ok ? { section, joint, limit: limit.value } : null
}

interface Candidate extends Limits { of: LineJointJson; /** Null: it fails without a ratio. */ by: { section: ReckonedSection; joint: ReckonedJoint } | null }

export interface CircuitStated {
  /** What limits it, among splices for which a figure is given; its section where none allows less. */
  by: Limiting | null
  /** Splices for which no figure is given and that may allow less still, the worst first. */
  mayBeLower: LineJointJson[]
}

/** What the sections of one circuit allow together, by the rule that the circuit's own sheet keeps to. */
export function statedOf(sections: readonly ReckonedSection[], weather: Weather, policy: Policy): CircuitStated {
  const parts = sections.map((section) => {
    const againstA = section.currentA || section.section.of.rating_a || 1
    const allowed = allowedLineA(section.joints.map(({ heated }) => heated), weatherOn(weather, section.section.facts, policy), policy)
    return { section, allowed, splices: candidates(section, allowed.map((lineA) => lineA / againstA)), ceiling: (section.section.capA ?? Infinity) / againstA }
  })
  const { by, mayBeLower } = statedTogether(parts)
  const others = mayBeLower.map(({ of }) => of)
  if (by?.by) return { by: limitOf(by.by, weather, policy), mayBeLower: others }
  // A section's rating does not stand beside a splice that may allow less: it would be read as what the circuit may carry.
  return { by: others.length > 0 ? null : limiting(sections, weather, policy, (of) => parts.find(({ section }) => section === of)?.allowed ?? []), mayBeLower: others }
}

function candidates(section: ReckonedSection, ranks: readonly number[]): Candidate[] {
  const reckoned = section.joints.flatMap((joint, i): Candidate[] =>
    countsBy(joint.heated, joint.of) === 'ratio' ? [{ of: joint.of, class: joint.of.class, figure: joint.of.figure, rank: ranks[i] ?? null, by: { section, joint } }] : [])
  const { joints, leftOut } = section.section
  const drawn = [...joints.map(({ of, heated }) => ({ of, drawn: heated })), ...leftOut.map(({ of, why }) => ({ of, drawn: why }))]
  const failing = drawn.filter(({ of, drawn: how }) => countsBy(how, of) === 'fails')
  return [...reckoned, ...failing.map(({ of }): Candidate => ({ of, class: of.class, figure: false, rank: null, by: null }))]
}

/** Splices without a usable ratio, how many, and the ratio that they were taken to lie under; those that fail all the same stand apart. */
export function unread(sections: readonly ReckonedSection[]) {
  const joints = sections.flatMap(({ joints: all }) => all.filter((joint) => !isRead(joint)))
  const unknown = joints.filter((joint) => !isBlind(joint))
  return { count: unknown.length, upperK: Math.max(...unknown.map(({ of }) => of.upper_k)), blind: joints.filter(isBlind) }
}
