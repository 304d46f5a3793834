import { z } from 'zod'
import { conditionClass } from './condition-class'

const id = z.int().positive()
const instant = z.iso.datetime({ offset: true })
const given = z.string().trim().min(1).max(200)
const reason = z.string().trim().min(1).max(2000)

/** One row of the register of current limits: who said what, and how it stands now. */
export const currentLimit = z.object({
  id,
  splice_id: id,
  splice: z.string(),
  circuit_id: id,
  circuit: z.string(),
  section_id: id,
  /** Line current per phase; never above the section's rating. */
  line_a: z.number(),
  /** At the circuit's voltage; null where that is not known. */
  mva: z.number().nullable(),
  /** What the engine advised when it was proposed; null: it had no figure. */
  advised_a: z.number().nullable(),
  reason: z.string(),
  proposed_by: z.string(),
  proposed_at: instant,
  review_by: instant,
  /** The rating engineer, another person than who proposed it. */
  agreed_by: z.string().nullable(),
  agreed_at: instant.nullable(),
  /** The operator, who read it back. */
  accepted_by: z.string().nullable(),
  accepted_at: instant.nullable(),
  in_force_from: instant.nullable(),
  lifted_by: z.string().nullable(),
  lifted_at: instant.nullable(),
  lifted_why: z.string().nullable(),
  /** Highest load of the section since it came into force that nobody suspects; null: none is known. */
  greatest_load_a: z.number().nullable(),
  /** ask-engineer: its review is due, more has flown, or the section is rated lower now; nothing but a person lifts it. */
  standing: z.enum(['proposed', 'agreed', 'in-force', 'ask-engineer', 'lifted']),
  /** Why an engineer is to be asked, in a sentence; null otherwise. */
  standing_why: z.string().nullable(),
})

/**
 * Of a section the splice with a figure that allows the least in rating weather, where that is less than the section's rating, and those without
 * a figure that may allow less still: with one of them the figure reads 'not more than'. Advice, agreed by nobody.
 */
export const sectionSpliceLimit = z.object({
  section_id: id,
  splice_id: id,
  splice: z.string(),
  class: conditionClass,
  held: z.boolean(),
  /** False: it fails without a ratio, or is held by a finding that its own figure does not count; it may allow less than any figure here. */
  figure: z.boolean(),
  /** Line current per phase; null without a figure. */
  line_a: z.number().nullable(),
  /** At the circuit's voltage; null where that is not known, and without a figure. */
  mva: z.number().nullable(),
})

export const limitList = z.object({ items: z.array(currentLimit) })

/** POST /api/v1/splices/{id}/limits */
export const proposeLimitBody = z.strictObject({
  line_a: z.number().positive().max(20_000),
  proposed_by: given,
  reason,
  /** Needed where `line_a` is above what the engine advises now; it stands with the reason on the register. */
  above_advised_why: given.optional(),
  review_by: instant.optional(),
})

/** POST /api/v1/limits/{id}: one step of the register. */
export const limitStepBody = z.discriminatedUnion('step', [
  z.strictObject({ step: z.literal('agree'), agreed_by: given }),
  z.strictObject({ step: z.literal('accept'), accepted_by: given, read_back_a: z.number(), in_force_from: instant.optional() }),
  z.strictObject({ step: z.literal('lift'), lifted_by: given, why: reason }),
])

/** GET /api/v1/limits */
export const limitsQuery = z.object({ circuit: z.coerce.number().int().positive().optional() })

export type CurrentLimitJson = z.infer<typeof currentLimit>
export type SectionSpliceLimit = z.infer<typeof sectionSpliceLimit>
export type ProposeLimit = z.infer<typeof proposeLimitBody>
export type LimitStep = z.infer<typeof limitStepBody>
