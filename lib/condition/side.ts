import { chancesOf, classFrom, rankOf, worseOf } from './classify'
import type { Context } from './context'
import type { SideMeasurement } from './measure'
import { aged, fuse, priorBelief, type Belief, type OneSidedSign } from './posterior'
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
  const belief = fuse(priorBelief(context.policy), [measuredBelief(side)])
  return classFrom(chancesOf(belief, context.edges, { overK: context.policy.findings.overK, odds: 1 }), context.policy.pRules)
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

/** One side as measured and as believed `years` later, with the signs taken into account. */
export function assessSide(side: SideMeasurement, years: number, signs: Signs, context: Context): SideAssessment {
  const { policy, edges } = context
  const { correlation } = policy.instrument
  const belief = fuse(priorBelief(policy), [aged(measuredBelief(side), years, policy.ageing)])
  const sign = signs.windy ? { overK: signs.firm.overK, odds: signs.firm.odds * signs.windy.odds } : signs.firm
  const pOver = chancesOf(belief, edges, sign)
  let measured = classFrom(pOver, policy.pRules)
  if (signs.windy && rankOf(measured) > rankOf('degraded')) {
    measured = worseOf(classFrom(chancesOf(belief, edges, signs.firm), policy.pRules), 'degraded')
  }
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
