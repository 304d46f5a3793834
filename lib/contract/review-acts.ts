import { z } from 'zod'
import { reviewCause } from './contract'

/** Which waiting readings are meant: all that fit every part that is given. */
export const reviewChoice = z.strictObject({
  import_id: z.int().positive().optional(),
  cause: reviewCause.optional(),
  /** Those that were marked. */
  reading_ids: z.array(z.int().positive()).min(1).max(5_000).optional(),
})

export const reviewActKind = z.enum(['set-aside', 'accept-best'])

/** Why a chosen reading goes on waiting. */
export const stayReason = z.enum([
  'urgent', 'no-candidate', 'similar-circuits', 'similar-places', 'several-splices', 'place-not-known', 'beside-another', 'line-changed',
])

/** Body of POST /api/v1/review/acts/preview. */
export const reviewActPreviewBody = z.strictObject({ action: reviewActKind, choice: reviewChoice })

/** What the act would do now; nothing is stored. */
export const reviewActPreview = z.object({
  chosen: z.int(),
  settles: z.int(),
  /** Of those that are accepted, by circuit, the most first. */
  circuits: z.array(z.object({ circuit_id: z.int(), circuit: z.string(), count: z.int() })),
  new_splices: z.int(),
  stays: z.array(z.object({ why: stayReason, count: z.int() })),
  /** Of the cause that is chosen, how many wait of each import, the newest first. */
  imports: z.array(z.object({ import_id: z.int(), file_name: z.string(), count: z.int() })),
})

/** Body of POST /api/v1/review/acts. `expected`: how many the preview said it settles; where it is another number by now, nothing is done. */
export const reviewActBody = z.discriminatedUnion('action', [
  z.strictObject({ action: z.literal('set-aside'), choice: reviewChoice, reason: z.string().trim().min(1).max(400), expected: z.int().positive() }),
  z.strictObject({ action: z.literal('accept-best'), choice: reviewChoice, expected: z.int().positive() }),
])

/** One act on many readings. It runs in the background: `job_id` says how far it, or its undoing, is. */
export const reviewAct = z.object({
  id: z.int(),
  action: reviewActKind,
  reason: z.string().nullable(),
  choice: reviewChoice,
  actor: z.string(),
  created_at: z.string(),
  done_at: z.string().nullable(),
  settled: z.int().nullable(),
  left_waiting: z.int().nullable(),
  undone_at: z.string().nullable(),
  undone_by: z.string().nullable(),
  /** How many wait again; what somebody decided otherwise meanwhile stays so. */
  restored: z.int().nullable(),
  failure: z.string().nullable(),
  job_id: z.int().nullable(),
})

/** The latest acts, newest first, at most 20. */
export const reviewActList = z.object({ items: z.array(reviewAct) })

export type ReviewChoice = z.infer<typeof reviewChoice>
export type ReviewActKind = z.infer<typeof reviewActKind>
export type StayReason = z.infer<typeof stayReason>
export type ReviewActPreview = z.infer<typeof reviewActPreview>
export type ReviewActBody = z.infer<typeof reviewActBody>
export type ReviewAct = z.infer<typeof reviewAct>
