import { z } from 'zod'

const instant = z.iso.datetime({ offset: true })
const day = z.iso.date()

/** How much of a circuit was looked at, and how much of that a failing splice could not have passed. */
export const coverageShares = z.object({
  span_count: z.int(),
  /** Spans times phases that are known or assumed three. */
  span_phase_count: z.int(),
  /** Looked at: somebody was there, whatever could be seen. */
  covered_span_phases: z.int(),
  share: z.number().nullable(),
  /** Of those, where a failing splice would have shown: every interface read, or infrared with enough load and little wind. */
  conclusive_span_phases: z.int(),
  conclusive_share: z.number().nullable(),
  /** When the oldest and the newest of those looks were taken. */
  conclusive_oldest_on: day.nullable(),
  conclusive_newest_on: day.nullable(),
  /** Of the conclusive ones, those whose look is older than the re-survey interval of the worst class there; the share is of all spans and phases. */
  conclusive_stale_span_phases: z.int(),
  /** Of those within it, where every interface of every splice was read: one bad side would have shown. The others rest on infrared, which sees the mean of a splice. */
  every_interface_span_phases: z.int(),
  conclusive_stale_share: z.number().nullable(),
})

/** Readings in review that are urgent or critical by their own numbers and may be on the circuit: no splice has their class yet. */
export const unsettled = z.object({
  urgent: z.int(),
  critical: z.int(),
  /** The worst of them, to be placed first; null where there is none. */
  reading_id: z.int().positive().nullable(),
})

/**
 * Splices past the response time of their class, counted from when the reading was taken that shows it: how long it lay before it was read in
 * counts too.
 */
export const overdue = z.object({
  degraded: z.int(),
  urgent: z.int(),
  critical: z.int(),
  /** The one longest overdue: which splice, days since it was found as its own sheet says, and when it was entered here. */
  longest: z.object({ id: z.int().positive(), splice: z.string(), days: z.int(), entered_at: instant }).nullable(),
})
