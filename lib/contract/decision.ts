import { z } from 'zod'

/** Why a finding and what was read after it contradict each other. */
export const CONTRADICTION_CAUSES = ['electrodes', 'wrong-splice', 'sides-exchanged', 'entered-wrongly', 'repaired', 'other'] as const
export const contradictionCause = z.enum(CONTRADICTION_CAUSES)

export type ContradictionCause = z.infer<typeof contradictionCause>

const given = (most: number) => z.string().trim().min(1).max(most)

/**
 * Body of POST /api/v1/splices/{id}/clear: who says that a held class no longer stands, why, and what explains that the readings contradict each
 * other. A ratio does not fall by itself.
 */
export const clearBody = z.strictObject({
  engineer: given(200),
  cause: contradictionCause,
  /** In the engineer's own words; needed where the cause is 'other'. */
  cause_text: given(500).optional(),
  reason: given(2000),
  /** `assessed_at` of the splice as it was looked at; refused where it was assessed anew since. */
  assessed_at: z.iso.datetime({ offset: true }).optional(),
}).refine(({ cause, cause_text: text }) => cause !== 'other' || text !== undefined, {
  path: ['cause_text'], message: 'is missing: a cause that is none of these is named in words.', params: { remedy: 'Say in cause_text what explains the contradiction.' },
})
