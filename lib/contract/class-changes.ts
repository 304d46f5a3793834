import { z } from 'zod'
import { conditionClass } from './condition-class'

/** Splices whose class on show differs from before: how many from which to which, and the worst of them by name. */
export const classChanges = z.object({
  changes: z.array(z.object({ from: conditionClass, to: conditionClass, count: z.int() })),
  /** The first 50, worst first. */
  splices: z.array(z.object({ id: z.int(), splice: z.string(), from: conditionClass, to: conditionClass })),
  total: z.int(),
})

export type ClassChangesJson = z.infer<typeof classChanges>
