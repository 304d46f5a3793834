import type { Outlook } from '@/lib/contract/outlook'
import { ENGINE_VERSION, workingOf } from '@/lib/condition'
import type { WorkingJson } from '@/lib/contract/outlook'
import { ok, type Result } from '@/lib/result/result'
import { loadSubjects } from '@/lib/store/evidence'
import { policyOfVersion } from '@/lib/store/policies'
import type { Scope } from '@/lib/store/scope'
import { getSplice } from '@/lib/store/splice-detail'
import { inTransaction } from '@/lib/store/transaction'
import type { Assessment } from '@/lib/condition'
import { noSuch, refuse, type CaseError } from './problem'

/**
 * The latest assessment of a splice step by step, so that an engineer can check it by hand: under the policy it was made under, of the evidence
 * that it was made of. One that another version of the engine wrote cannot be followed by this one.
 */
export async function showWorking(scope: Scope, spliceId: number): Promise<Result<WorkingJson, CaseError>> {
  return inTransaction(async (tx) => {
    const detail = await getSplice(scope, spliceId, tx)
    const [read] = await loadSubjects(scope, [spliceId], tx)
    if (!detail || !read) return noSuch('splice in service')
    const { assessment, assessed_at: assessedAt } = detail
    if (!assessment || assessedAt === null) return refuse('wrong-state', 'This splice was never assessed.', 'Import a reading of it first.')
    const stored = assessment as unknown as Assessment
    const policy = await policyOfVersion(scope, stored.policyVersion, tx)
    if (stored.engineVersion !== ENGINE_VERSION || !policy) {
      return refuse('wrong-state', `This assessment was made by version ${stored.engineVersion} of the engine.`,
        'Its working is shown once the splice is assessed anew: change the policy, or import a reading.')
    }
    const { facts, evidence } = read()
    return ok({
      engine_version: stored.engineVersion, policy_version: stored.policyVersion, assessed_at: assessedAt,
      // A figure that the sheet withholds is not worked out beside it.
      steps: workingOf({ assessment: { ...stored, limit: shownLimit(detail.outlook, stored.limit) }, facts, evidence, policy, asOfMs: Date.parse(assessedAt) }),
    })
  })
}

/** What the sheet says it may carry: as the readings give it, at the finding that holds the class, or nothing. */
function shownLimit(outlook: Outlook | null, stored: Assessment['limit']): Assessment['limit'] {
  const limit = outlook?.limit
  if (!limit || limit.held_ratio === null) return limit ? stored : undefined
  const { ambient_c: ambientC, wind_m_s: windMS, wind_angle_deg: windAngleDeg, sun_w_m2: sunWPerM2, elevation_m: elevationM } = limit.weather
  return {
    use: 'for-operations', lineA: limit.line_a, mva: limit.mva, spliceLineA: limit.splice_line_a, spliceSubconductorA: limit.splice_subconductor_a, sectionA: limit.section_a,
    sectionFrom: limit.section_from, limitedBy: limit.limited_by, spliceC: limit.splice_c, k: limit.upper_k, weather: { ambientC, windMS, windAngleDeg, sunWPerM2, elevationM },
    flows: [], peakPassesIt: false, heldRatio: limit.held_ratio,
  }
}
