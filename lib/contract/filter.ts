import { z } from 'zod'
import { conditionClass } from './contract'

const list = <T extends z.ZodType>(item: T) => z.preprocess(
  (text) => (typeof text === 'string' ? text.split(',').map((x) => x.trim()).filter(Boolean) : text), z.array(item))

/**
 * The filter that lists, tiles and addresses share: `class=urgent,critical&circuit=3,7&voltage=230&phase=A`.
 * An absent field filters nothing; a class list that is empty shows nothing.
 */
export const spliceFilterQuery = z.object({
  class: list(conditionClass).optional(),
  circuit: list(z.coerce.number<string>().int().positive()).optional(),
  voltage: list(z.coerce.number<string>().positive()).optional(),
  phase: list(z.string().max(8)).optional(),
})

/** Query of a tile: the filter, and the data version that a screen puts into the address so that it asks anew. */
export const tileQuery = spliceFilterQuery.extend({ v: z.string().max(40).optional() })

export interface SpliceFilter {
  classes?: z.infer<typeof conditionClass>[]
  circuitIds?: number[]
  voltagesKv?: number[]
  phases?: string[]
}

export const bboxQuery = z.string()
  .transform((s) => s.split(',').map(Number))
  .pipe(z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90), z.number().min(-180).max(180), z.number().min(-90).max(90)]))

/** worst: worst class first, then the highest ratio. place: along each circuit. recent: last read first. */
export const SPLICE_SORTS = ['worst', 'place', 'recent'] as const

/** Query of GET /api/v1/splices. */
export const spliceListQuery = spliceFilterQuery.extend({
  bbox: bboxQuery.optional(),
  cursor: z.string().max(500).optional(),
  limit: z.coerce.number<string>().int().min(1).max(500).optional(),
  sort: z.enum(SPLICE_SORTS).optional(),
})

export const toSpliceFilter = (q: z.infer<typeof spliceFilterQuery>): SpliceFilter => ({
  classes: q.class, circuitIds: q.circuit, voltagesKv: q.voltage, phases: q.phase,
})

/** The same filter as a query string, fields in a fixed order, so that it can be compared and cached. */
export function filterToQuery(f: SpliceFilter): string {
  const parts: string[] = []
  if (f.classes) parts.push(`class=${f.classes.join(',')}`)
  if (f.circuitIds) parts.push(`circuit=${f.circuitIds.join(',')}`)
  if (f.voltagesKv) parts.push(`voltage=${f.voltagesKv.join(',')}`)
  if (f.phases) parts.push(`phase=${f.phases.map(encodeURIComponent).join(',')}`)
  return parts.join('&')
}
