import { z } from 'zod'

const day = z.iso.date()

/** A span and the last look at each of its phases; '' where the phase is not confirmed. */
export const spanCoverage = z.object({
  span_id: z.int().positive(),
  section: z.string(),
  structure_back: z.string().nullable(),
  structure_ahead: z.string().nullable(),
  start_m: z.number(),
  end_m: z.number(),
  seen: z.array(z.object({
    phase: z.string(),
    method: z.string(),
    surveyed_on: day,
    survey: z.string(),
    /** The last look was of a flight or patrol that wrote down its finds alone, and no reading was taken there on that day: nothing was found, which is not sound. */
    exceptions_only: z.boolean(),
    /** When a failing splice would last have shown; null: no look so far proves anything. */
    conclusive_on: day.nullable(),
    /** The last day within the re-survey interval of the worst class there. */
    conclusive_until: day.nullable(),
  })),
})

export type SpanCoverage = z.infer<typeof spanCoverage>
