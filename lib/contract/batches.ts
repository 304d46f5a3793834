import { z } from 'zod'
import { conditionClass } from './condition-class'

const id = z.int().positive()

/** One batch of splices against all others that were measured. */
export const batchStanding = z.object({
  batch: z.string(),
  /** In service. */
  splice_count: z.int(),
  /** Of them with a class. */
  measured_count: z.int(),
  /** Degraded or worse. */
  failing_count: z.int(),
  /** Share of failing among all other measured splices; null where there is no other. */
  others_share: z.number().nullable(),
  /** Chance of as many failing by accident, were it like the others. */
  by_accident: z.number(),
  /** It fails beyond accident. */
  stands_out: z.boolean(),
  /** Of a batch that stands out those degraded or worse and those without a class, the worst first, at most 200; empty of others. */
  splices: z.array(z.object({ id, splice: z.string(), circuit_id: id, circuit: z.string(), class: conditionClass, ratio: z.number().nullable() })),
})

/** Batches that stand out first, then by how unlikely their failing splices are. */
export const batchList = z.object({ items: z.array(batchStanding) })

export type BatchStandingJson = z.infer<typeof batchStanding>
