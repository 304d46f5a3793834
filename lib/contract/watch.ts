import { z } from 'zod'

const id = z.int().positive()
const instant = z.iso.datetime({ offset: true })

/** What the watch list says of a degraded or worse splice, beside what it is. */
export const watchState = z.object({
  /** The first thing that is still to be done. */
  next: z.enum(['call-control-room', 'decide-load-or-outage', 'second-reading-or-engineer', 'repair', 'repair-in-outage']),
  /** When that is due: hours from when a critical class was shown for a call and a decision, else the response time of the class from its finding. */
  due_at: instant.nullable(),
  /** The class is held by a finding whose reading was taken back since, and so is the ratio that is shown. */
  finding_withdrawn: z.boolean().optional(),
  /** Who has taken it. */
  owner: z.string().nullable(),
  taken_at: instant.nullable(),
  /** The control room was not told of something about it. */
  waits_for_call: z.boolean(),
  /** The last call about it, or what the control room was told. */
  called_at: instant.nullable(),
  limit_state: z.enum(['none', 'proposed', 'agreed', 'in-force', 'ask-engineer']),
  /** The greatest of last known load, expected peak and flow after a contingency over the lower of advised limit and limit in force; null where no flow or no limit is known. */
  load_share: z.number().nullable(),
  /** Which flow that is. */
  load: z.enum(['last', 'peak', 'contingency']).nullable(),
  /** What its assessment advises, A per phase; null where it advises nothing. */
  advised_a: z.number().nullable(),
  /** Of the circuit, between phases; null where it is not on record. */
  voltage_kv: z.number().nullable(),
  radial: z.boolean(),
  /** Load at stake on the circuit, MW. */
  mw: z.number().nullable(),
  /** What its span crosses. */
  crossing: z.string().nullable(),
})

/** PUT /api/v1/splices/{id}/owner: who has taken it, by name; null: nobody any more. */
export const ownerBody = z.strictObject({ owner: z.string().trim().min(1).max(200).nullable() })
export const spliceOwner = z.object({ owner: z.string().nullable(), taken_at: instant.nullable() })

/** A filter under a name, for everybody of the scope; `query` as it stands in the address of lists and tiles. */
export const savedView = z.object({ id, name: z.string(), query: z.string(), created_at: instant, created_by: z.string() })
export const savedViewList = z.object({ items: z.array(savedView) })
export const savedViewBody = z.strictObject({ name: z.string().trim().min(1).max(80), query: z.string().max(1000) })

/** GET /api/v1/surveys, the newest first. */
export const surveyList = z.object({ items: z.array(z.object({ id, name: z.string() })) })

export type WatchState = z.infer<typeof watchState>
export type SpliceOwner = z.infer<typeof spliceOwner>
export type SavedView = z.infer<typeof savedView>
