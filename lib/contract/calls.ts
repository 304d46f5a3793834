import { z } from 'zod'
import { conditionClass } from './condition-class'
import { pageQuery } from './page'

const id = z.int().positive()
const instant = z.iso.datetime({ offset: true })
const given = z.string().trim().min(1).max(200)
const text = z.string().trim().min(1).max(2000)

/** What a call decided; several may apply, `nothing-yet` stands alone and says why. */
export const CALL_DECISIONS = [
  'load-relief', 'outage', 'reclosing-blocked', 'reclosing-left-on', 'patrol-first', 'confirming-reading', 'repair', 'nothing-yet',
] as const
export const callDecision = z.enum(CALL_DECISIONS)

/** call: somebody was called. look: looked at again in a peak-load period. told: the control room was told of an urgent notice. */
export const callKind = z.enum(['call', 'look', 'told'])

/** An entry of the log. What the control room was told of stands in it once, be it noted as a call or from its notice. */
export const callEntry = z.object({
  /** Unique in the log: 'call-12', 'told-5'. */
  key: z.string(),
  /** Of the entry; of the notice where kind is told. */
  id,
  kind: callKind,
  /** Null for a notice whose reading has no place yet. */
  splice_id: id.nullable(),
  splice: z.string().nullable(),
  circuit_id: id.nullable(),
  circuit: z.string().nullable(),
  position_text: z.string().nullable(),
  /** As it was shown, or as the notice said, when it was noted. */
  class: conditionClass,
  /** As it is shown now; null where it has no splice, or none in service. */
  class_now: conditionClass.nullable(),
  /** Who called or looked; of kind told who noted it. */
  by: z.string(),
  /** Who was called; null for a look, and where only the noting is known. */
  whom: z.string().nullable(),
  at: instant,
  decided: z.array(callDecision),
  nothing_why: z.string().nullable(),
  note: z.string().nullable(),
  /** This call answered the notices of its splice that waited for the control room. */
  told_control_room: z.boolean(),
  noted_at: instant,
  noted_by: z.string(),
  struck_at: instant.nullable(),
  struck_by: z.string().nullable(),
  struck_why: z.string().nullable(),
})

export const callPage = z.object({ items: z.array(callEntry), next_cursor: z.string().nullable() })
export const callList = z.object({ items: z.array(callEntry) })

const circuits = z.preprocess(
  (value) => (typeof value === 'string' ? value.split(',').map((x) => x.trim()).filter(Boolean) : value), z.array(z.coerce.number<string>().int().positive()))

/** GET /api/v1/calls */
export const callsQuery = z.object({ circuit: circuits.optional(), since: instant.optional(), ...pageQuery.shape })

/** POST /api/v1/splices/{id}/calls */
export const recordCallBody = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('call'),
    by: given,
    whom: given,
    /** When it was; as it is noted where absent. Never still to come. */
    at: instant.optional(),
    decided: z.array(callDecision).min(1).max(CALL_DECISIONS.length),
    /** Needed where nothing was decided yet. */
    nothing_why: text.optional(),
    note: text.optional(),
    /** It was the control room: what waits for it of this splice was told with this call. */
    told_control_room: z.boolean().optional(),
  }),
  z.strictObject({ kind: z.literal('look'), by: given, at: instant.optional(), note: text.optional() }),
])

/** POST /api/v1/calls/{id}/strike */
export const strikeCallBody = z.strictObject({ struck_by: given, why: text })

/** A peak-load period by the utility's clock, as moments. */
export const peakMoment = z.object({ from: instant, to: instant })

/** GET /api/v1/look-again: urgent and critical splices in service and not looked at since the peak-load period began, the worst first. */
export const lookAgain = z.object({
  /** Null between periods. */
  current: peakMoment.nullable(),
  /** Null where no period is set. */
  next: peakMoment.nullable(),
  /** Urgent and critical together, and how many of them were looked at in this period; between periods none. */
  acute: z.int(),
  looked: z.int(),
  /** The worst 200 of those that wait for a look now, or from `next` on. */
  items: z.array(z.object({
    splice_id: id, splice: z.string(), circuit_id: id, circuit: z.string(), position_text: z.string(), class: conditionClass, ratio: z.number().nullable(),
    lon: z.number(), lat: z.number(),
    /** The last reading of it, or look noted at it. */
    last_look_at: instant.nullable(),
    /** The last call about it that was not struck. */
    last_call_at: instant.nullable(),
    /** When the control room was last told of a notice of it. */
    last_told_at: instant.nullable(),
    /** The last reading of it; `last_look_at` where nobody noted a look after it. */
    last_reading_at: instant.nullable(),
  })),
})

export type CallEntryJson = z.infer<typeof callEntry>
export type CallDecision = z.infer<typeof callDecision>
export type RecordCall = z.infer<typeof recordCallBody>
export type StrikeCall = z.infer<typeof strikeCallBody>
export type LookAgainJson = z.infer<typeof lookAgain>
