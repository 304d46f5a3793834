import { chancesOf, classFrom, rankOf, worseOf, type Chances } from './classify'
import type { Context } from './context'
import type { SideMeasurement } from './measure'
import { aged, fuse, probabilityOver, type Belief, type OneSidedSign } from './posterior'
import { probabilityRatioOver } from './ratio'
import type { MeasuredClass, SideAssessment } from './types'

/** Signs that speak of the splice as a whole: `firm` counts in full, `windy` never lifts a class above degraded. */
export interface Signs {
  firm: OneSidedSign
  windy: OneSidedSign | null
}

export const measuredBelief = (side: SideMeasurement): Belief => ({ mean: Math.log(side.ratio), sd: side.uLnK })

/** The class of a side on the day it was read, by its reading alone. */
function classOfSide(side: SideMeasurement, context: Context): MeasuredClass {
  const { policy: { findings, pRules }, edges, prior } = context
  const belief = fuse(prior, [measuredBelief(side)])
  const sign = { overK: findings.overK, odds: 1 }
  // A chance over a higher edge is never greater, so most sides are done with one.
  if (probabilityOver(edges.watch, belief, sign) < Math.min(pRules.watch, pRules.degraded, pRules.urgent, pRules.critical)) return 'sound'
  return classFrom(chancesOf(belief, edges, sign), pRules)
}

/** The worst side by its own class, of two in one class the higher ratio; null of none. */
export function worstOfSides(sides: readonly SideMeasurement[], context: Context): { side: SideMeasurement; class: MeasuredClass } | null {
  let found: { side: SideMeasurement; class: MeasuredClass } | null = null
  for (const side of sides) {
    const own = classOfSide(side, context)
    if (found && rankOf(own) < rankOf(found.class)) continue
    if (found && own === found.class && side.ratio <= found.side.ratio) continue
    found = { side, class: own }
  }
  return found
}

/** What infrared says of one side. */
export interface CarriedInfrared {
  item: Belief
  /** The two contradict each other and infrared is the worse: the side's own reading does not count. */
  replaces: boolean
  windy: boolean
}

interface Judged {
  belief: Belief
  pOver: Chances
  class: MeasuredClass
}

function judged(items: readonly Belief[], signs: Signs, { policy, edges, prior }: Context): Judged {
  const belief = fuse(prior, items)
  const sign = signs.windy ? { overK: signs.firm.overK, odds: signs.firm.odds * signs.windy.odds } : signs.firm
  const pOver = chancesOf(belief, edges, sign)
  let measured = classFrom(pOver, policy.pRules)
  if (signs.windy && rankOf(measured) > rankOf('degraded')) {
    measured = worseOf(classFrom(chancesOf(belief, edges, signs.firm), policy.pRules), 'degraded')
  }
  return { belief, pOver, class: measured }
}

/** With infrared beside it. Infrared may raise a class, in much wind up to degraded, and never lowers one. */
function judgedWithInfrared(own: Belief, { item, replaces, windy }: CarriedInfrared, signs: Signs, context: Context): Judged {
  const alone = judged([own], signs, context)
  const together = judged(replaces ? [item] : [own, item], signs, context)
  if (rankOf(together.class) < rankOf(alone.class)) return alone
  if (windy && rankOf(together.class) > rankOf('degraded')) return { ...together, class: worseOf(alone.class, 'degraded') }
  return together
}

/** One side as measured and as believed `years` later, with the signs taken into account. */
export function assessSide(side: SideMeasurement, years: number, signs: Signs, context: Context, infrared?: CarriedInfrared): SideAssessment {
  const { policy, edges } = context
  const { correlation } = policy.instrument
  const own = aged(measuredBelief(side), years, policy.ageing)
  const { belief, pOver, class: measured } = infrared ? judgedWithInfrared(own, infrared, signs, context) : judged([own], signs, context)
  return {
    side: side.side,
    ratio: side.ratio,
    sideUohm: side.sideUohm,
    conductorUohm: side.conductorUohm,
    uSideUohm: side.uSideUohm,
    uConductorUohm: side.uConductorUohm,
    uRatio: side.ratio * side.uLnK,
    meanLnK: belief.mean,
    sdLnK: belief.sd,
    medianK: Math.exp(belief.mean),
    pOver,
    pOverMeasured: {
      watch: probabilityRatioOver(edges.watch, side, correlation),
      degraded: probabilityRatioOver(edges.degraded, side, correlation),
      urgent: probabilityRatioOver(edges.urgent, side, correlation),
      critical: probabilityRatioOver(edges.critical, side, correlation),
    },
    class: measured,
    flags: side.flags,
    readingIds: side.readingIds,
    takenAtMs: side.takenAtMs,
    repeats: side.repeats,
    reference: side.reference,
    electrodeSpanM: side.electrodeSpanM,
  }
}
