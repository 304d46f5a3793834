import type { Assessment, Policy, ShownClass, SpliceFacts } from '@/lib/condition'
import { carriedK, isWithheld } from '@/lib/condition/loading/carried-k'
import { heldLimit } from '@/lib/store/held-limit'

/** What a splice is advised to carry, as its sheet says it: of a held one at the finding that holds it. Undefined where no figure is given. */
export function advisedOf(facts: SpliceFacts, assessment: Assessment, shown: ShownClass, policy: Policy, nowMs: number): Assessment['limit'] {
  if (!shown.held) return assessment.limit
  const carried = carriedK({ ...assessment, limitK: assessment.limit?.k }, shown, nowMs, policy)
  const atFinding = heldLimit(sheetOf(facts), carried, shown.foundRatio ?? null, assessment, policy)
  return atFinding ?? (isWithheld({ held: true, figure: carried.figure }) ? undefined : assessment.limit)
}

const sheetOf = (facts: SpliceFacts): Parameters<typeof heldLimit>[0] => ({
  kind: facts.kind, fitting_type: facts.fittingType ?? null, barrel_od_mm: facts.barrelOdMm ?? null, conductor: facts.conductorCode ?? null,
  subconductors: facts.subconductors, rating_a: facts.ratingA ?? null, max_operating_c: facts.maxOperatingC ?? null, elevation_m: facts.elevationM ?? null,
  voltage_kv: facts.voltageKv ?? null, last_load: null, expected_peak: null, post_contingency: null,
})
