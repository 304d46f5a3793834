import { z } from 'zod'
import { circuitSummary } from '@/lib/contract/contract'

const text = z.string().nullable()
const number = z.number().nullable()

/** GET /api/v1/circuits/{id}: the summary with its sections and crossings, as far as the sheet reads it. */
export const circuitDetail = circuitSummary.extend({
  sections: z.array(z.object({
    id: z.int(), name: z.string(), from: text, to: text, conductor: text, subconductors: z.int(), rating_a: number, rating_emergency_a: number,
    max_operating_c: number, length_m: z.number(), structure_count: z.int(), span_count: z.int(),
  })),
  crossings: z.array(z.object({ id: z.int(), line_distance_m: z.number(), kind: z.string(), name: text })),
})
export type CircuitDetailJson = z.infer<typeof circuitDetail>
