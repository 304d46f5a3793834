import { z } from 'zod'

/** One infrared reading of a splice beside those of the other phases in its span, taken on the same flight. */
export const otherPhases = z.object({
  reading_id: z.int(),
  splice_temp_c: z.number(),
  line_current_a: z.number().nullable(),
  others: z.array(z.object({
    splice_id: z.int(),
    splice: z.string(),
    phase: z.string(),
    reading_id: z.int(),
    splice_temp_c: z.number(),
    line_current_a: z.number().nullable(),
  })),
})

export type OtherPhasesJson = z.infer<typeof otherPhases>
