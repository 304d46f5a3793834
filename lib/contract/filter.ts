import { z } from 'zod'
import { conditionClass } from './condition-class'
import { pageQuery } from './page'

const list = <T extends z.ZodType>(item: T) => z.preprocess(
  (text) => (typeof text === 'string' ? text.split(',').map((x) => x.trim()).filter(Boolean) : text), z.array(item))

/** Numbers of circuits parted by commas. */
export const circuitList = list(z.coerce.number<string>().int().positive())

/** Phases as they are stored, in any case. unknown is a state of its own: nobody said, or it could not be read. */
const phaseWord = z.preprocess((text) => (typeof text === 'string' ? (text.toLowerCase() === 'unknown' ? 'unknown' : text.toUpperCase()) : text), z.enum(['A', 'B', 'C', 'unknown']))

export const CONFIDENCES = ['high', 'medium', 'low'] as const
/** What a class rests on. none: nothing that says how the splice is. */
export const EVIDENCE = ['resistance', 'infrared', 'none', 'conflict'] as const
/** Years since the last reading. */
export const AGES = ['under-1', '1-3', '3-6', 'over-6', 'never'] as const

/**
 * The filter that lists, tiles and addresses share: `class=urgent,critical&circuit=3,7&voltage=230&phase=A`.
 * An absent field filters nothing; a class list that is empty shows nothing.
 */
export const spliceFilterQuery = z.object({
  class: list(conditionClass).optional(),
  circuit: circuitList.optional(),
  voltage: list(z.coerce.number<string>().positive()).optional(),
  phase: list(phaseWord).optional(),
  confidence: list(z.enum(CONFIDENCES)).optional(),
  survey: list(z.coerce.number<string>().int().positive()).optional(),
  age: list(z.enum(AGES)).optional(),
  evidence: list(z.enum(EVIDENCE)).optional(),
})

/** Query of a tile: the filter, and the data version that a screen puts into the address so that it asks anew. */
export const tileQuery = spliceFilterQuery.extend({ v: z.string().max(40).optional() })

export interface SpliceFilter {
  classes?: z.infer<typeof conditionClass>[]
  circuitIds?: number[]
  voltagesKv?: number[]
  phases?: string[]
  confidences?: (typeof CONFIDENCES)[number][]
  surveyIds?: number[]
  ages?: (typeof AGES)[number][]
  evidence?: (typeof EVIDENCE)[number][]
}

type Bbox = [west: number, south: number, east: number, north: number]

const BBOX_REMEDY = 'Give west, south, east, north in WGS84 degrees, parted by commas: -112.5,47.2,-111.8,47.9.'
const BBOX_EDGES = [['west', 180], ['south', 90], ['east', 180], ['north', 90]] as const

/** The first thing wrong with a box, as the end of a sentence that begins with its name; null where it can be used. */
function bboxTrouble(text: string): string | null {
  const parts = text.split(',').map((part) => part.trim())
  if (parts.length !== 4) return `has ${parts.length} ${parts.length === 1 ? 'value' : 'values'}, not 4`
  const strange = parts.find((part) => !/^[+-]?(\d+\.?\d*|\.\d+)$/.test(part))
  if (strange !== undefined) return strange === '' ? 'leaves a value empty' : `holds '${strange.slice(0, 20)}', which is no number`
  for (const [at, [edge, limitDeg]] of BBOX_EDGES.entries()) {
    if (Math.abs(Number(parts[at])) > limitDeg) return `has ${edge} at ${parts[at]}, outside -${limitDeg} to ${limitDeg} degrees`
  }
  const [, south, , north] = parts
  return Number(south) > Number(north) ? `has south ${south} above north ${north}` : null
}

/** West, south, east, north, degrees. West greater than east is a box across the 180th meridian (RFC 7946, 5.2). */
export const bboxQuery = z.string().transform((text, context): Bbox => {
  const trouble = bboxTrouble(text)
  if (trouble === null) return text.split(',').map(Number) as Bbox
  context.addIssue({ code: 'custom', message: `${trouble}.`, params: { remedy: BBOX_REMEDY } })
  return z.NEVER
})

/** risk: the watch list's own order, see lib/condition/risk. worst: worst class first, then the highest ratio. unsound: the same with what is not known before what is sound. place: along each circuit. recent: last read first. */
export const SPLICE_SORTS = ['risk', 'worst', 'unsound', 'place', 'recent'] as const

/** Query of GET /api/v1/splices. */
export const spliceListQuery = spliceFilterQuery.extend({
  bbox: bboxQuery.optional(),
  ...pageQuery.shape,
  sort: z.enum(SPLICE_SORTS).optional(),
})

/** Query of the same list as a file, which has no pages; `recipient`: whom it is for and what for, written beside the information-handling mark. */
export const spliceExportQuery = spliceFilterQuery.extend({ bbox: bboxQuery.optional(), recipient: z.string().trim().max(200).optional() })

export const toSpliceFilter = (q: z.infer<typeof spliceFilterQuery>): SpliceFilter => ({
  classes: q.class, circuitIds: q.circuit, voltagesKv: q.voltage, phases: q.phase, confidences: q.confidence, surveyIds: q.survey, ages: q.age, evidence: q.evidence,
})

/** The same filter as a query string, fields in a fixed order, so that it can be compared and cached. */
export function filterToQuery(f: SpliceFilter): string {
  const parts: string[] = []
  if (f.classes) parts.push(`class=${f.classes.join(',')}`)
  if (f.circuitIds) parts.push(`circuit=${f.circuitIds.join(',')}`)
  if (f.voltagesKv) parts.push(`voltage=${f.voltagesKv.join(',')}`)
  if (f.phases) parts.push(`phase=${f.phases.map(encodeURIComponent).join(',')}`)
  if (f.confidences) parts.push(`confidence=${f.confidences.join(',')}`)
  if (f.surveyIds) parts.push(`survey=${f.surveyIds.join(',')}`)
  if (f.ages) parts.push(`age=${f.ages.join(',')}`)
  if (f.evidence) parts.push(`evidence=${f.evidence.join(',')}`)
  return parts.join('&')
}
