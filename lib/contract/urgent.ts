import { z } from 'zod'

/** What the control room is to be told, and whether it was. */
const id = z.int().positive()
const instant = z.iso.datetime({ offset: true })

export const classOfNotice = z.enum(['urgent', 'critical'])

/**
 * reading: by its own numbers. assessment: none of the readings is by itself, but the splice came out so. row: by the numbers of a row that
 * was not read for another fault.
 */
export const noticeBasis = z.enum(['reading', 'assessment', 'row'])

/**
 * What the conductor reads beside a splice, and what the conductor on record has over the same electrode span, both in µΩ; `unit_factor` where
 * sides and conductor are all about so many times what they would be.
 */
export const conductorDoubt = z.object({ conductor: z.string(), conductor_uohm: z.number(), expected_uohm: z.number(), unit_factor: z.number().optional() })

/** The conductor of the table, where none was measured that could be used: µΩ over the electrode span, and what was typed instead of a reading. */
export const byTable = z.object({ conductor: z.string(), uohm: z.number(), typed: z.string().optional() })

/** What a row that was not read says by itself, as far as it could be understood. */
export const rowSays = z.object({
  circuit: z.string().nullable(), section: z.string().nullable(), splice: z.string().nullable(),
  structure_back: z.string().nullable(), structure_ahead: z.string().nullable(), offset_m: z.number().nullable(),
  phase: z.string().nullable(), position: z.string().nullable(), circuit_side: z.string().nullable(), subconductor: z.string().nullable(),
  taken_at: instant.nullable(), lon: z.number().nullable(), lat: z.number().nullable(),
  side_a_uohm: z.number().nullable(), side_b_uohm: z.number().nullable(), conductor_uohm: z.number().nullable(), splice_temp_c: z.number().nullable(),
  /** The likeliest span, where the row has a position and names no structure. */
  near: z.object({ structure_back: z.string().nullable(), structure_ahead: z.string().nullable() }).nullable(),
})

/** The row behind a notice that has, or at first had, no reading: where it stands, what it says and why it was not read. */
export const unreadRow = z.object({
  file_name: z.string(), import_id: id, row: z.int(), line: z.int().nullable(),
  says: rowSays,
  /** A sentence for each fault. */
  why: z.array(z.string()),
  /** When its import was undone. The alarm stays until the control room is told. */
  undone_at: instant.nullable(),
  /** True once the row was corrected and read. */
  read_since: z.boolean(),
})

/** The call itself: whom of the control room, and when. Null where only the noting is known; reports from before it was asked have neither. */
const call = z.object({ told_to: z.string().nullable().optional(), told_at: instant.nullable().optional() })

/** What is said of a call as it is noted. A program that knows neither sends nothing. */
export const toldBody = z.strictObject({
  /** The person or desk that was told. */
  told_to: z.string().trim().min(1).max(200).optional(),
  /** When the call was; as it is noted where absent. */
  told_at: instant.optional(),
}).default({})

/** A reading that is urgent or critical, by its own numbers or with what else is known of its splice: call the control room now. */
export const urgentReading = z.object({
  /** One reading may have two: urgent, and critical after that was told. */
  notice_id: id,
  /** Null while its row was not read. */
  reading_id: id.nullable(),
  /** Its own reading_id or hash; null for a row that was not read and has none. */
  reading_key: z.string().nullable(),
  /** In its file; reports from before it was kept have none. */
  row: z.int().optional(),
  survey: z.string(),
  class: classOfNotice,
  basis: noticeBasis,
  /** Null for a sighting: broken strands are urgent without a ratio. */
  ratio: z.number().nullable(),
  /** Set where the conductor reading cannot be that of the conductor on record: the ratio is provisional, against the lower of the two. */
  provisional: conductorDoubt.nullable().optional(),
  /** Set where the ratio stands against the table's conductor, for want of a measured one. */
  by_table: byTable.nullable().optional(),
  taken_at: instant.nullable(),
  /** Null while its row was not read. */
  placement_state: z.enum(['placed', 'review', 'rejected']).nullable(),
  splice_id: id.nullable(),
  splice: z.string().nullable(),
  position_text: z.string().nullable(),
  /** What the position rests on: where it is placed, what it says itself, or its likeliest candidate. */
  position_basis: z.enum(['placed', 'declared', 'nearest']).nullable().optional(),
  /** The circuit that it names itself, on file or not; reports from before it was kept have none. */
  says_circuit: z.string().nullable().optional(),
  lon: z.number().nullable(),
  lat: z.number().nullable(),
  circuits: z.array(z.object({
    circuit_id: id, circuit: z.string(), line_name: z.string().nullable(), probability: z.number().nullable(),
  })),
  /** Of a reading that the readings around it put on its circuit: those that its own position leaves open as well, as one text. */
  other_circuits: z.string().nullable().optional(),
  /** The phase is that of the splice it was put on; the reading itself gives none. */
  phase_not_confirmed: z.boolean().nullable().optional(),
  raised_at: instant,
  /** When the control room was told, and who noted it. */
  acknowledged_at: instant.nullable(),
  acknowledged_by: z.string().nullable(),
  ...call.shape,
  /** The undo of this file took the reading back; the alarm stays until the control room is told. */
  withdrawn: z.object({ file_name: z.string(), at: instant.nullable() }).nullable(),
  /** Set where a row was not read; of several the last. Reports from before such rows had notices have none. */
  not_read: unreadRow.nullable().optional(),
})

/** What the review shows of a reading's notice. */
export const noticeState = z.object({
  class: classOfNotice, basis: noticeBasis, acknowledged_at: instant.nullable(), acknowledged_by: z.string().nullable(), ...call.shape,
})

export type UrgentReading = z.infer<typeof urgentReading>
export type UnreadRow = z.infer<typeof unreadRow>
export type RowSays = z.infer<typeof rowSays>
export type ToldBody = z.infer<typeof toldBody>
export type NoticeState = z.infer<typeof noticeState>
