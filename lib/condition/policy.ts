import { z } from 'zod'

const positive = z.number().positive()
const probability = z.number().min(0).max(1)

/** What a utility may set. Sources and reasons stand beside each default. */
export const policySchema = z.object({
  procedureNo: z.string().max(80).default(''),
  /** Class edges on k at a maximum operating temperature of 75 °C. */
  edges: z.object({ watch: positive, degraded: positive, urgent: positive, critical: positive })
    .refine((e) => e.watch < e.degraded && e.degraded < e.urgent && e.urgent < e.critical, { message: 'The edges must rise from watch to critical.' })
    .default({ watch: 1.0, degraded: 1.3, urgent: 1.85, critical: 2.75 }),
  /** A class is taken when the believed probability over its edge reaches this. */
  pRules: z.object({ watch: probability, degraded: probability, urgent: probability, critical: probability })
    .default({ watch: 0.5, degraded: 0.5, urgent: 0.3, critical: 0.2 }),
})
export type Policy = z.infer<typeof policySchema> & { version: number }
