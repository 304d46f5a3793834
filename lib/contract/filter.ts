import { z } from 'zod'
import { conditionClass } from './contract'

const list = <T extends z.ZodType>(item: T) =>
  z.string().transform((s) => s.split(',').map((x) => x.trim()).filter(Boolean)).pipe(z.array(item))

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

export interface SpliceFilter {
  classes?: z.infer<typeof conditionClass>[]
  circuitIds?: number[]
  voltagesKv?: number[]
  phases?: string[]
}

export const bboxQuery = z.string()
  .transform((s) => s.split(',').map(Number))
  .pipe(z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90), z.number().min(-180).max(180), z.number().min(-90).max(90)]))

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
