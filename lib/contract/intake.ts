import { z } from 'zod'
import { pageQuery } from './page'
import { importKind, importStatus, page, reviewCause, reviewItem, rowIssue } from './contract'

/** What one row of the file would become, in a sentence a person reads. */
export const previewRow = z.object({
  row: z.int(),
  cells: z.record(z.string(), z.string()),
  becomes: z.object({
    text: z.string(),
    state: z.enum(['placed', 'review', 'rejected', 'read']),
    /** Its own numbers are urgent or critical: the control room is called now. */
    own_class: z.enum(['urgent', 'critical']).optional(),
    /** That class rests on a doubtful conductor reading; the row's issues say why. */
    own_provisional: z.boolean().optional(),
    /** It is stored already, and operations has seen it. */
    held: z.literal(true).optional(),
    /** Where it would be drawn: the place on the line when placed, the raw position otherwise. WGS84 degrees. */
    lon: z.number().nullable().optional(),
    lat: z.number().nullable().optional(),
    /** The stretch of line that it names, longitude and latitude in order, where it has no position of its own. */
    course: z.array(z.tuple([z.number(), z.number()])).optional(),
  }),
  issues: z.array(rowIssue),
})

/** Why a column was taken for a field. */
export const mappingBasis = z.enum(['template', 'synonym', 'remembered', 'user', 'none'])

export const previewColumn = z.object({
  column: z.string(),
  field: z.string().nullable(),
  /** Unit key of lib/units; null where the field has none. */
  unit: z.string().nullable(),
  basis: mappingBasis,
  samples: z.array(z.string()),
})

/** Code of a refusal: unread columns may be readings, and nobody said what kind the file is; the preview's kind is none that should be taken. */
export const KIND_OPEN = 'kind-open'

/** The whole file is refused, by name. */
export const fileRefusal = z.object({ code: z.string(), message: z.string(), remedy: z.string() })

export const mappingJson = z.strictObject({
  kind: importKind,
  columns: z.array(z.strictObject({
    column: z.string(), field: z.string().nullable(), unit: z.string().optional(), basis: mappingBasis.optional(),
    /** How its first cells write decimals, where the file as a whole does not tell. */
    decimalComma: z.boolean().optional(),
  })),
  timeZone: z.string().optional(),
  decimalComma: z.boolean().optional(),
  /** How 03/04/2026 reads. */
  dateOrder: z.enum(['mdy', 'dmy']).optional(),
  survey: z.string().optional(),
  /** Field to what is read as its cell in rows that say nothing of it: {"kind": "dead-end"}. */
  values: z.record(z.string().max(64), z.string().max(200)).optional(),
})

/** Answer to POST /api/v1/imports/preview: the first rows (at most 50) and what each would become. Nothing is stored. */
export const importPreview = z.object({
  format: z.string(),
  notes: z.array(z.string()),
  kind: importKind,
  columns: z.array(previewColumn),
  mapping: mappingJson,
  rows: z.array(previewRow),
  /** What was said of an earlier file with the same columns and is taken for this one, in a sentence; `fresh` reads it without. */
  as_before: z.string().optional(),
  refusal: fileRefusal.optional(),
})

/** Body of POST /api/v1/readings/{id}/placement. */
export const placementDecision = z.discriminatedUnion('action', [
  z.strictObject({
    action: z.literal('accept'),
    /** Index into the review item's candidates. */
    candidate: z.int().min(0),
    splice_id: z.int().positive().optional(),
    new_splice: z.boolean().optional(),
    phase: z.string().max(8).optional(),
  }),
  z.strictObject({
    action: z.literal('drag'),
    lon: z.number().min(-180).max(180),
    lat: z.number().min(-90).max(90),
    circuit_id: z.int().positive().optional(),
    phase: z.string().max(8).optional(),
  }),
  /** The reason is needed where the reading is urgent or critical. */
  z.strictObject({ action: z.literal('reject'), reason: z.string().max(400).optional() }),
])

/**
 * Query of GET /api/v1/review, urgent first, then oldest: `state=rejected` lists what people rejected, so that it can be taken back;
 * `cause` leaves out what waits for another;
 * `reading` asks for that one item whatever its state (an address holds it), as a page of one.
 */
export const reviewQuery = z.object({
  state: z.enum(['review', 'rejected']).default('review'),
  cause: reviewCause.optional(),
  reading: z.coerce.number<string>().int().positive().optional(),
  ...pageQuery.shape,
})

/** GET /api/v1/templates/{kind}.json: what is read of one kind of file. */
export const kindDescription = z.object({
  kind: importKind,
  label: z.string(),
  description: z.string(),
  /** Where each record lies, when the file is GeoJSON. */
  geometry: z.enum(['line', 'point', 'none']),
  /** Fields that every row needs. */
  required: z.array(z.string()),
  /** What a row needs beside them, in a sentence; '' where that is all. */
  needs: z.string(),
  /** A small file of one row: CSV, or GeoJSON where the records are lines. */
  example: z.string(),
  fields: z.array(z.object({
    name: z.string(),
    type: z.string(),
    unit: z.string().nullable(),
    unit_label: z.string().nullable(),
    /** Units that a header or a cell may speak in; the template's own first. */
    units: z.array(z.string()),
    /** In the template's unit. */
    range: z.string().nullable(),
    words: z.array(z.string()),
    required: z.boolean(),
    description: z.string(),
    example: z.string(),
    headers: z.array(z.string()),
    /** Headers that are taken for it only beside a unit. */
    headers_with_unit: z.array(z.string()),
  })),
})

/** GET /api/v1/templates. */
export const templateList = z.object({
  items: z.array(z.object({ kind: importKind, label: z.string(), description: z.string(), template: z.string(), fields: z.string() })),
})

/** `total` counts what the query asks for, `causes` everything that waits, the most frequent first. */
export const reviewPage = page(reviewItem).extend({
  causes: z.array(z.object({ cause: reviewCause, count: z.int(), urgent: z.int() })),
})
export const importPage = page(importStatus)

export type ImportPreview = z.infer<typeof importPreview>
export type PreviewRow = z.infer<typeof previewRow>
export type PreviewColumn = z.infer<typeof previewColumn>
export type MappingJson = z.infer<typeof mappingJson>
export type ReviewPage = z.infer<typeof reviewPage>
export type PlacementDecision = z.infer<typeof placementDecision>
