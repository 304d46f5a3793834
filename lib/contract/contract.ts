import { z } from 'zod'
import { classChanges } from './class-changes'
import { conditionClass } from './condition-class'
import { callEntry } from './calls'
import { coverageShares, overdue, unsettled } from './health'
import { historyEntry } from './history'
import { tripOfSplice } from './if-it-trips'
import { currentLimit } from './limits'
import { otherPhases } from './other-phases'
import { otherPlaces } from './other-places'
import { outlook } from './outlook'
import { lastLoad, planned, spliceOnSection } from './section'
import { jointTemperatures } from './temperatures'
import { noticeState, urgentReading } from './urgent'
import { restingOnImport } from './resting'
import { waitingRow } from './waiting-row'
import { spliceOwner, watchState } from './watch'

/**
 * The JSON of the API: snake_case, SI units in every numeric name, server-issued ids.
 * Screens read the same objects as other programs do; the OpenAPI document is made from these schemas.
 */
const id = z.int().positive()
const instant = z.iso.datetime({ offset: true })
const day = z.iso.date()

export const confidence = z.enum(['high', 'medium', 'low'])
export const importKind = z.enum(['lines', 'structures', 'splices', 'readings', 'phasing', 'crossings', 'extents', 'loads'])
export const importState = z.enum(['receiving', 'queued', 'running', 'done', 'failed', 'undone', 'cancelled'])

export const classCounts = z.object({
  sound: z.int(), watch: z.int(), degraded: z.int(), urgent: z.int(), critical: z.int(), unknown: z.int(),
})

export const rowIssue = z.object({
  severity: z.enum(['error', 'warning']),
  /** 1 = first data row or first feature; 0 = the whole file. */
  row: z.int(),
  /** Line of the file on which the row begins, from 1; null where the format has no lines. */
  line: z.int().nullable(),
  field: z.string().nullable(),
  value: z.string().nullable(),
  code: z.string(),
  message: z.string(),
  remedy: z.string(),
})

/** A column of the file that no field was found for: nothing of it is kept but the raw row. */
export const ignoredColumn = z.object({
  column: z.string(),
  /** The first different cells that hold something, at most three. */
  samples: z.array(z.string()),
})

export const importReport = z.object({
  import_id: id,
  kind: importKind,
  rows: z.int(),
  read: z.int(),
  rejected: z.int(),
  /** Rows that were stored before, value for value. */
  already_held: z.int(),
  /** Rows that say the same as an earlier row of the file, each named among the issues; absent in reports of before. */
  repeated: z.int().optional(),
  placed: z.int(),
  review: z.int(),
  /** The first 20 rows of those for review, by row; /api/v1/review has all that still wait. Reports of before it was told lack it. */
  waiting: z.array(waitingRow).optional(),
  new_splices: z.int(),
  /** Opens the report when not empty. */
  urgent: z.array(urgentReading),
  /** Of these, notices that waited before: of readings that were stored already and that the file says again. Absent where there were none. */
  met_notices: z.array(id).optional(),
  /** How the bytes were understood: encoding, delimiter, blank lines. */
  notes: z.array(z.string()),
  ignored_columns: z.array(ignoredColumn),
  /** Reports of before it was counted lack it. */
  class_changes: classChanges.optional(),
  /** The first 500, errors first; all of them are in rejected.csv and the issue list. */
  issues: z.array(rowIssue),
  issue_count: z.int(),
})

export const importStatus = z.object({
  id,
  kind: importKind,
  file_name: z.string(),
  size_bytes: z.int(),
  state: importState,
  /** Everything was done but the commit: the report stands, nothing was kept. */
  dry_run: z.boolean(),
  phase: z.string().nullable(),
  rows_total: z.int().nullable(),
  rows_done: z.int(),
  /** What the phase 'assessing' counts; null before it. */
  splices_total: z.int().nullable(),
  splices_done: z.int(),
  survey: z.string().nullable(),
  created_at: instant,
  finished_at: instant.nullable(),
  undone_at: instant.nullable(),
  actor: z.string(),
  failure: z.string().nullable(),
  report: importReport.nullable(),
  /** Of one import that is done and no survey: what rests on it. */
  resting: restingOnImport.optional(),
})

export const circuitSummary = z.object({
  id,
  name: z.string(),
  line_name: z.string().nullable(),
  from: z.string().nullable(),
  to: z.string().nullable(),
  voltage_kv: z.number().nullable(),
  region: z.string().nullable(),
  length_m: z.number(),
  counts: classCounts,
  /** Of those that are sound, how many nobody measured again by the day on which they were to be. */
  sound_past_re_measure: z.int(),
  unsettled,
  /** Of its splices, or of a reading whose place on it is not settled. */
  worst_class: conditionClass,
  bbox: z.tuple([z.number(), z.number(), z.number(), z.number()]).nullable(),
})

const standingLimit = z.object({ splice_id: id, splice: z.string(), line_a: z.number() })

export const circuitHealth = z.object({
  circuit_id: id,
  circuit: z.string(),
  counts: classCounts,
  splice_count: z.int(),
  worst_splice: z.object({
    id, splice: z.string(), class: conditionClass, ratio: z.number().nullable(), position_text: z.string(),
    /** Where its class begins on its section, if that has edges of its own; null where the general ones hold. */
    own_edge: z.number().nullable(),
  }).nullable(),
  coverage: coverageShares,
  unsettled,
  overdue,
  /** Splices that still stand in their class after its response time, counted from when the class was first shown. */
  past_response: z.object({ degraded: z.int(), urgent: z.int(), critical: z.int() }),
  /** Of those that stand in their class now: whose reading lay longer than its response time before it was read in. No clock counts that. */
  read_in_late: z.object({ degraded: z.int(), urgent: z.int(), critical: z.int(), longest_days: z.int().nullable() }),
  last_surveyed_on: day.nullable(),
  /** The greatest last known load of its sections, per phase. */
  last_load_a: z.number().nullable(),
  /** Limits of its splices in force, those that have lapsed to 'ask engineer', and the lowest of each, per phase. */
  limits: z.object({ in_force: z.int(), ask_engineer: z.int(), lowest_in_force: standingLimit.nullable(), lowest_ask_engineer: standingLimit.nullable() }),
  updated_at: instant,
})

export const spliceSummary = spliceOnSection.extend({
  circuit_id: id,
  circuit: z.string(),
  section: z.string(),
  voltage_kv: z.number().nullable(),
  lon: z.number(),
  lat: z.number(),
  /** What is shown. Urgent and critical do not fall by themselves: `held` where it stands above `measured_class`. */
  class: conditionClass,
  /** What the evidence by itself says now. */
  measured_class: conditionClass,
  held: z.boolean(),
  /** Of the evidence now. */
  confidence,
  /** Goes with `class`: where it is held, the ratio of the finding that holds it. */
  ratio: z.number().nullable(),
  /** Goes with `measured_class`. */
  measured_ratio: z.number().nullable(),
  /** When the finding behind a degraded, urgent or critical class was measured. */
  found_at: instant.nullable(),
  flags: z.array(z.string()),
  last_reading_at: instant.nullable(),
  /** When a look at it could last have shown a failing splice. */
  conclusive_at: instant.nullable(),
  /** By when it is to be measured again; past it, `class` is of then. Null of a held class, and where nothing dated was read. */
  measure_by: instant.nullable(),
  reading_count: z.int(),
  found_by_survey: z.boolean(),
})

export const candidate = z.object({
  circuit_id: id,
  circuit: z.string(),
  section_id: id,
  section: z.string(),
  span_id: id,
  structure_back: z.string().nullable(),
  structure_ahead: z.string().nullable(),
  line_distance_m: z.number(),
  offset_from_structure_m: z.number(),
  lon: z.number(),
  lat: z.number(),
  offset_m: z.number(),
  probability: z.number(),
  splices: z.array(z.object({ splice_id: id, splice: z.string(), along_m: z.number(), phase: z.string().nullable() })),
  /** What its section carried nearest to the time of the reading; null where nobody knows. A hint which fits, and no evidence. */
  nearest_load: lastLoad.nullable().optional(),
  /** What its section may carry for a time, A per phase: its emergency rating, else its rating; null where none is on record. */
  most_a: z.number().nullable().optional(),
})

export const placement = z.object({
  state: z.enum(['placed', 'review', 'rejected']),
  circuit_id: id.nullable(),
  circuit: z.string().nullable(),
  section: z.string().nullable(),
  span_id: id.nullable(),
  splice_id: id.nullable(),
  splice: z.string().nullable(),
  line_distance_m: z.number().nullable(),
  lon: z.number().nullable(),
  lat: z.number().nullable(),
  offset_m: z.number().nullable(),
  probability: z.number().nullable(),
  method: z.enum(['declared', 'track', 'alone', 'person']),
  reasons: z.array(z.object({ code: z.string(), text: z.string() })),
  decided_by: z.string().nullable(),
  decided_at: instant,
})

export const reading = z.object({
  id,
  reading_id: z.string(),
  import_id: id,
  row: z.int(),
  survey: z.string(),
  kind: z.enum(['resistance', 'infrared', 'visual']),
  taken_at: instant.nullable(),
  lon: z.number().nullable(),
  lat: z.number().nullable(),
  gnss_accuracy_m: z.number().nullable(),
  position_of: z.string(),
  platform: z.string().nullable(),
  /** Every other field of the template that the row filled, under its own name. */
  fields: z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.array(z.string())])),
  raw_row: z.string(),
  /** The raw row under its file's own column names; only of one reading that is asked for by its number. */
  raw_cells: z.array(z.object({ column: z.string(), cell: z.string() })).optional(),
  placement,
})

/** Why a reading waits for a person: the reason that governs (lib/geo/review-cause). */
export const reviewCause = z.enum([
  'names-contradict', 'no-position', 'nothing-in-reach', 'contradicts', 'not-on-file', 'one-pass', 'several-circuits', 'off-the-line', 'phase-missing', 'several-splices',
])

export const reviewItem = z.object({
  reading,
  /** Null once a person has decided. */
  cause: reviewCause.nullable(),
  candidates: z.array(candidate),
  urgent: z.boolean(),
  /** Its worst notice, and whether the control room was told of all of them; null where it has none. */
  notice: noticeState.nullable(),
})

/** The finding that holds a class, and what is still needed to clear it. */
export const heldFinding = z.object({
  found_at: instant.nullable(),
  /** Null for a sighting. */
  ratio: z.number().nullable(),
  reading_id: id.nullable(),
  survey: z.string().nullable(),
  /** The finding's reading was taken back by the undo of this file. */
  withdrawn: z.object({ file_name: z.string(), at: instant.nullable() }).nullable(),
  /** The finding's reading was placed elsewhere since. */
  moved: z.boolean(),
  /** The newest usable ratio where it is later than the finding. */
  later: z.object({ at: instant, ratio: z.number(), class: conditionClass }).nullable(),
  /** Independent readings of every side after the finding that are better, and how many clear it. */
  good_readings: z.int(),
  needed_readings: z.int(),
  /** Two readings are independent when another instrument took them or so many hours lie between. */
  apart_h: z.number(),
})

export const spliceDetail = spliceSummary.extend({
  line_name: z.string().nullable(),
  fitting_type: z.string().nullable(),
  barrel_od_mm: z.number().nullable(),
  barrel_length_mm: z.number().nullable(),
  installed_on: day.nullable(),
  batch: z.string().nullable(),
  removed_on: day.nullable(),
  /** Length of its span. */
  span_m: z.number(),
  conductor: z.string().nullable(),
  subconductors: z.int(),
  rating_a: z.number().nullable(),
  max_operating_c: z.number().nullable(),
  /** Of the section, above sea level; null: that of the rating weather is taken. */
  elevation_m: z.number().nullable(),
  /** Of the section; null: none is known. */
  last_load: lastLoad.nullable(),
  /** What the planner last said that the section will carry at most, and after the worst single outage elsewhere; null: nobody did. */
  expected_peak: planned.nullable(),
  post_contingency: planned.nullable(),
  position_text: z.string(),
  /** lib/condition Assessment, as it was stored. */
  assessment: z.record(z.string(), z.unknown()).nullable(),
  assessment_text: z.object({
    headline: z.string(),
    reasons: z.array(z.string()),
    next_actions: z.array(z.string()),
    flags: z.array(z.object({ code: z.string(), text: z.string() })),
  }).nullable(),
  /** Limit, trends and sources of the assessment; null where there is none. */
  outlook: outlook.nullable(),
  /** Null for a splice that was removed or never assessed. */
  temperatures: jointTemperatures.nullable(),
  assessed_at: instant.nullable(),
  /** Since when it has been shown as degraded, urgent or critical, or worse: response times run from here. */
  raised_at: instant.nullable(),
  /** When the reading behind a degraded, urgent or critical class was read in here: the time since it was taken counts on no response clock. */
  read_in_at: instant.nullable(),
  /** When that reading was taken: the one that first showed the class, not a later one as bad. */
  first_found_at: instant.nullable(),
  /** Set where the class is held. */
  hold: heldFinding.nullable(),
  /** Infrared beside the other phases of its span: supporting evidence only. */
  other_phases: z.array(otherPhases),
  /** The register of current limits, what is not lifted first. */
  limits: z.array(currentLimit),
  /** The log of calls about it and looks at it, newest first. */
  calls: z.array(callEntry),
  /** Who has taken it. */
  owner: spliceOwner,
  /** What operations asks of its circuit when that trips. */
  if_it_trips: tripOfSplice,
  /** Where else its readings may have been taken, of those that left a doubt. */
  other_places: z.array(otherPlaces),
  history: z.array(historyEntry),
  readings: z.array(reading),
})

export const page = <T extends z.ZodType>(item: T) =>
  z.object({ items: z.array(item), next_cursor: z.string().nullable(), total: z.int().optional() })

/** A row of the watch list. `watch` stands with what is degraded or worse. */
export const listedSplice = spliceSummary.extend({ watch: watchState.nullish() })

export const spliceList = page(listedSplice).extend({
  counts: classCounts,
  /** The same whatever the classes asked for: what each class would add. */
  counts_of_any_class: classCounts,
  /** Of the sound ones among these, how many nobody measured again by the day on which they were to be. */
  sound_past_re_measure: z.int(),
  /** Urgent and critical that the filter leaves out. */
  hidden: z.object({ urgent: z.int(), critical: z.int() }),
})

export type ListedSplice = z.infer<typeof listedSplice>
export type ClassCounts = z.infer<typeof classCounts>
export type ImportReport = z.infer<typeof importReport>
export type ImportStatus = z.infer<typeof importStatus>
export type LastLoad = z.infer<typeof lastLoad>
export type CircuitSummary = z.infer<typeof circuitSummary>
export type CircuitHealth = z.infer<typeof circuitHealth>
export type HeldFinding = z.infer<typeof heldFinding>
export type SpliceSummary = z.infer<typeof spliceSummary>
export type SpliceDetail = z.infer<typeof spliceDetail>
export type SpliceList = z.infer<typeof spliceList>
export type ReadingJson = z.infer<typeof reading>
export type ReviewItem = z.infer<typeof reviewItem>
export type ReviewCause = z.infer<typeof reviewCause>
export type Candidate = z.infer<typeof candidate>
