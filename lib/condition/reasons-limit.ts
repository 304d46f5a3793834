import type { SpliceLimit } from './splice-limit'
import type { ConditionClass, Reason } from './types'

/** What the splice may carry, and which flows of its circuit pass that. */
/** @param upperShare how often the ratio that it is drawn at is not passed */
export function limitReasons(limit: SpliceLimit | undefined, condition: ConditionClass, upperShare: number): Reason[] {
  if (!limit || condition === 'unknown') return []
  const { lineA, mva, k, spliceC, sectionA, limitedBy, flows, peakPassesIt } = limit
  if (limitedBy === 'section') return [{ code: 'limit-of-section', values: { sectionA } }]
  const reasons: Reason[] = [{ code: 'limit', values: { lineA, mva, upperRatio: k, upperShare, spliceC } }]
  for (const { flow, currentA, overA } of flows) {
    if (overA <= 0) continue
    if (flow === 'expectedPeakA') reasons.unshift({ code: 'peak-over-limit', values: { peakA: currentA, lineA, raises: peakPassesIt && condition === 'urgent' } })
    if (flow === 'postContingencyA') reasons.push({ code: 'contingency-over-limit', values: { flowA: currentA, lineA } })
  }
  return reasons
}
