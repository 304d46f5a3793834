import { z } from 'zod'
import { page } from './contract'

const id = z.int().positive()

/** Circuits that run in one corridor: on the same structures for a quarter or more of the shorter of two. */
export const corridor = z.object({
  /** Its circuits in the order of their names: '2310 / 2320'. */
  name: z.string(),
  /** Each hangs with another of them all along; else they run together in part. */
  throughout: z.boolean(),
  circuits: z.array(z.object({
    circuit_id: id,
    circuit: z.string(),
    length_m: z.number(),
    /** Of `length_m`, m on the same structures as another circuit of the corridor. */
    together_m: z.number(),
  })).min(2),
  /** West, south, east, north of all its circuits, degrees. */
  bbox: z.tuple([z.number(), z.number(), z.number(), z.number()]),
})

/** GET /api/v1/corridors, by name. A circuit is in one of them or in none. */
export const corridorPage = page(corridor)

export type Corridor = z.infer<typeof corridor>
