import { z } from 'zod'

/** A row of a file that was read and waits for a person to say where it belongs. */
export const waitingRow = z.object({
  row: z.int(),
  /** Line of the file on which it begins; null where the format has no lines. */
  line: z.int().nullable(),
  /** The reason that governs, in a sentence. */
  reason: z.string(),
  /** The probabilities are no finding: what the row names is shared out evenly over all that bear it. */
  alike: z.literal(true).optional(),
  /** Where it may belong, likeliest first. */
  candidates: z.array(z.object({ circuit: z.string(), position_text: z.string(), probability: z.number() })),
})

export type WaitingRow = z.infer<typeof waitingRow>
