import type { Assessment, Policy, SpliceKind } from '@/lib/condition'
import { flowsAgainst } from '@/lib/condition/limit-lapse'
import type { CarriedK } from '@/lib/condition/loading/carried-k'
import { heatedJoint } from '@/lib/condition/loading/line-joint'
import { limitInWeather } from '@/lib/condition/loading/line-limit'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { Warmed } from './joint-temperatures'

type Held = Warmed & Pick<SpliceDetail, 'voltage_kv' | 'expected_peak' | 'post_contingency'>

/**
 * What a splice may carry at the finding that holds its class, by the same reckoning as a load on its line: never more than its readings since
 * would allow, for the worse ratio of both is taken.
 * @returns undefined where the evidence's own figure counts the finding already, or none can be drawn
 */
export function heldLimit(splice: Held, ratio: CarriedK, foundRatio: number | null, assessment: Assessment, policy: Policy): Assessment['limit'] {
  if (ratio.basis !== 'finding' || !ratio.figure || foundRatio === null || (assessment.limit?.k ?? 0) >= foundRatio) return undefined
  const section = {
    conductorCode: splice.conductor, subconductors: splice.subconductors, ratingA: splice.rating_a, maxOperatingC: splice.max_operating_c,
    elevationM: splice.elevation_m,
  }
  const joint = heatedJoint({ ...ratio, kind: splice.kind as SpliceKind, fittingType: splice.fitting_type, barrelOdMm: splice.barrel_od_mm }, section, policy)
  if (typeof joint === 'string') return undefined
  const limit = limitInWeather(joint, section, splice.voltage_kv, ratingWeatherOf(policy, section.elevationM), policy)
  if (!limit.ok) return undefined
  const flows = flowsAgainst(limit.value.lineA, { expectedPeakA: splice.expected_peak?.current_a, postContingencyA: splice.post_contingency?.current_a })
  return { ...limit.value, flows, peakPassesIt: false, heldRatio: foundRatio }
}
