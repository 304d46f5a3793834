import { z } from 'zod'
import { conditionClass } from './condition-class'
import { circuitSummary, classCounts, importKind, importStatus } from './contract'
import { urgentReading } from './urgent'
import { currentLimit, sectionSpliceLimit } from './limits'
import { ifItTrips } from './if-it-trips'
import { mappingJson } from './intake'
import { pageQuery } from './page'
import { planned, section } from './section'

/** The rest of what the API takes and answers: lists' queries, search, state, a circuit in full. */
const id = z.int().positive()
const lonLatBox = z.tuple([z.number(), z.number(), z.number(), z.number()])

/** Largest file by the web; the import command has no limit. */
export const UPLOAD_LIMIT_BYTES = 100_000_000

/** `first`: numbers of circuits, by commas, whose places along a span come before those of other lines that number alike. */
export const searchQuery = z.object({
  q: z.string().max(200),
  first: z.string().max(200).regex(/^\d{1,9}(,\d{1,9})*$/).transform((ids) => ids.split(',').map(Number)).optional(),
})

export const searchResult = z.object({
  items: z.array(z.object({
    kind: z.enum(['circuit', 'structure', 'splice', 'place']),
    /** Of a place along a span: the span's. Zero for a place that coordinates name. */
    id: z.int(),
    label: z.string(),
    detail: z.string().nullable(),
    /** The circuits that a structure carries or a splice is on, apart from their line names. */
    circuits: z.array(z.string()),
    lon: z.number(),
    lat: z.number(),
    bbox: lonLatBox.optional(),
  })),
  /** Why the text is not one place, in a sentence with its quantities in SI and braces: a distance longer than its span, or a part that was not understood. */
  note: z.string().optional(),
})

/** GET /api/v1/state: has anything changed, what waits for a person. */
export const stateJson = z.object({
  data_version: z.int(),
  policy_version: z.int(),
  /** What is stored from now on is of a later moment, also where its work has begun already: whoever asks next for the changes since this one misses none. */
  complete_to: z.iso.datetime({ offset: true }),
  review_count: z.int(),
  urgent_count: z.int(),
  network_bbox: lonLatBox.nullable(),
  counts: classCounts,
  /** Of those that are sound, how many nobody measured again in time. */
  sound_past_re_measure: z.int(),
  /** Urgent and critical readings in review, where they were taken: at most 200, the worst first. A map that lacks them shows the wrong splice instead. */
  unsettled: z.array(z.object({ reading_id: id, class: z.enum(['urgent', 'critical']), lon: z.number(), lat: z.number() })),
})

export const circuitDetail = circuitSummary.extend({
  /** Its splices of unknown class: those where nobody ever was, those with readings that prove nothing, and those passed by a look that reported nothing of them. */
  unknown: z.object({ never_looked_at: z.int(), inconclusive: z.int(), passed_by: z.int() }),
  sections: z.array(section.extend({
    /** What the planner last said that it will carry at most, and after the worst single outage elsewhere; null: nobody did. */
    expected_peak: planned.nullable(),
    post_contingency: planned.nullable(),
    lateral_offset_m: z.number().nullable(),
    declared_length_m: z.number().nullable(),
    structure_count: z.int(),
    span_count: z.int(),
  })),
  /** Limits of its splices that are not lifted, the lowest first. */
  limits: z.array(currentLimit),
  /** What its splices allow, at most one figure of each section, and after it those that may allow less; a section that none of them limits is not among them. */
  splice_limits: z.array(sectionSpliceLimit),
  crossings: z.array(z.object({ id, line_distance_m: z.number(), kind: z.string(), name: z.string().nullable() })),
  phasing: z.array(z.object({ structure_from: z.string(), structure_to: z.string(), position: z.string(), phase: z.string() })),
  /** Who loses supply, what isolates it, who is called. */
  if_it_trips: ifItTrips,
})

/** Body of POST /api/v1/readings: rows under the names of the template, as a file would have them. */
export const readingRows = z.array(z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null(), z.array(z.string())])))
  .min(1).max(10_000)

/** Query of GET /api/v1/imports: `dry_run=0` leaves dry runs out, `dry_run=1` lists them alone. */
export const importsQuery = pageQuery.extend({ dry_run: z.enum(['0', '1']).optional() })

/** Query of POST /api/v1/readings: the survey of rows that name none. */
export const postReadingsQuery = z.object({ survey: z.string().max(200).optional() })

/** Query of GET /api/v1/readings. */
export const readingsQuery = pageQuery.extend({ import: z.coerce.number<string>().int().positive() })

const mappingField = z.preprocess((text, context) => {
  if (typeof text !== 'string') return text
  try {
    return JSON.parse(text)
  } catch {
    context.addIssue({ code: 'custom', message: 'It is not JSON' })
    return z.NEVER
  }
}, mappingJson.optional())

/** Fields of the form of POST /api/v1/imports beside its `file`; `mapping` is JSON. */
export const uploadFields = z.strictObject({
  kind: importKind,
  mapping: mappingField,
  survey: z.string().max(200).optional(),
  dry_run: z.enum(['0', '1']).optional(),
})

/** Fields of the form of POST /api/v1/imports/preview beside its `file`, of which the first MiB is enough. */
export const previewFields = z.strictObject({
  kind: importKind.optional(),
  file_name: z.string().max(500).optional(),
  mapping: mappingField,
  /** 1: guess anew, whatever was said of an earlier file with the same columns. */
  fresh: z.enum(['0', '1']).optional(),
})

/** Answer to DELETE /api/v1/imports/{id}. `undo` is null where the import was not done yet: it was cancelled, and nothing had been stored. */
export const undoneImport = importStatus.extend({
  undo: z.object({
    import_id: id,
    readings_withdrawn: z.int(),
    splices_removed: z.int(),
    removed_urgent: z.int(),
    removed_critical: z.int(),
    /** Splices whose class stands above what the evidence says now, because it may not fall unasked. */
    held: z.array(z.object({ splice_id: id, class: conditionClass, measured_class: conditionClass })),
  }).nullable(),
})

export const urgentList = z.object({ items: z.array(urgentReading) })

/** Body of POST /api/v1/policy/preview. */
export const policyPreviewBody = z.strictObject({ values: z.record(z.string(), z.unknown()) })

/** Body of PUT /api/v1/policy. */
export const policyBody = policyPreviewBody.extend({ procedure_no: z.string().max(100),
  /** Why the values change, and the named person who stands behind that: asked for wherever a value differs from those in force. */
  note: z.string().max(2000), set_by: z.string().max(100).optional(),
})

export type CircuitJson = z.infer<typeof circuitDetail>
export type UndoneImport = z.infer<typeof undoneImport>
