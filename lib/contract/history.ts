import { z } from 'zod'
import { conditionClass } from './condition-class'
import { contradictionCause } from './decision'
import { classOfNotice, noticeBasis } from './urgent'

const instant = z.iso.datetime({ offset: true })

/** What happened to a splice. `at` is when it became known here, for a repair when it was read after. */
export const historyEntry = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('assessment'), at: instant, class: conditionClass, measured_class: conditionClass, held: z.boolean(), confidence: z.enum(['high', 'medium', 'low']),
    /** What was measured. */
    ratio: z.number().nullable(),
    /** Of the splice as a whole by infrared, where there was none by resistance. */
    infrared_ratio: z.number().nullable(), cause: z.string(), file_name: z.string().nullable(), engine_version: z.string(), policy_version: z.int(),
  }),
  z.object({
    kind: z.literal('notice'), at: instant, class: classOfNotice, ratio: z.number().nullable(), basis: noticeBasis, reading_key: z.string(), survey: z.string(),
    withdrawn: z.boolean(),
  }),
  z.object({
    kind: z.literal('told'), at: instant, class: classOfNotice, by: z.string(), reading_key: z.string(), survey: z.string(), withdrawn: z.boolean(),
    told_to: z.string().nullable(), told_at: instant.nullable(),
  }),
  z.object({
    kind: z.literal('decision'), at: instant, engineer: z.string(), reason: z.string(), from: conditionClass, to: conditionClass, by: z.string(),
    /** What explained the contradiction; null of decisions from before it was asked for. */
    cause: contradictionCause.nullable(), cause_text: z.string().nullable(),
  }),
  z.object({ kind: z.literal('repair'), at: instant, survey: z.string(), readings: z.int() }),
  z.object({
    kind: z.literal('limit'), at: instant,
    /** A limit that nobody had accepted was withdrawn; one in force was lifted. */
    step: z.enum(['proposed', 'agreed', 'accepted', 'lifted', 'withdrawn']),
    /** Per phase. */
    line_a: z.number(), by: z.string(),
    /** Of a proposal its reason, of a lifted or withdrawn one why; null otherwise. */
    why: z.string().nullable(),
  }),
  z.object({ kind: z.literal('undo'), at: instant, file_name: z.string(), readings: z.int(), by: z.string().nullable() }),
])

export type HistoryEntry = z.infer<typeof historyEntry>
