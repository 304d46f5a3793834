import { isPastReMeasure } from '@/lib/condition/past-re-measure'
import type { ExportedSplice } from '@/lib/store/splices'
import { formatAllowed, formatRatio } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { aboutText, type AboutExport } from './about'

/** A splice on its way out, with its position in the trade's words. */
export interface ExportRow extends ExportedSplice {
  place: string
  /** '2310 / 2320'; null where its circuit hangs alone. */
  corridor: string | null
}

/** A cell: text, number, truth, or nothing known. */
export type Cell = string | number | boolean | null

/** A tenth of a millimetre on the ground; the line distance to the millimetre, a ratio beyond what any instrument reads. */
const rounded = (value: number | null, decimals: number): number | null => (value === null ? null : Number(value.toFixed(decimals)))

/**
 * What a file of splices tells of each: first the columns by which our own import of splices knows it again, then how it stands.
 * None of the others has a name that an import would take for something else.
 */
const CELLS: Readonly<Record<string, (s: ExportRow, about: AboutExport) => Cell>> = {
  splice_id: (s) => s.label,
  circuit: (s) => s.circuit,
  section: (s) => s.section,
  structure_back: (s) => s.structure_back,
  structure_ahead: (s) => s.structure_ahead,
  line_distance_m: (s) => rounded(s.line_distance_m, 3),
  phase: (s) => s.phase,
  position: (s) => s.position,
  circuit_side: (s) => s.circuit_side,
  subconductor: (s) => s.subconductor,
  kind: (s) => s.kind,
  lon: (s) => rounded(s.lon, 7),
  lat: (s) => rounded(s.lat, 7),
  place: (s) => s.place,
  corridor: (s) => s.corridor,
  condition_class: (s) => s.class,
  held: (s) => s.held,
  confidence: (s) => s.confidence,
  ratio: (s) => rounded(s.ratio, 3),
  ratio_standard_uncertainty: (s) => rounded(s.ratio_u, 3),
  measured_class: (s) => s.measured_class,
  measured_ratio: (s) => rounded(s.measured_ratio, 3),
  last_reading_at: (s) => s.last_reading_at,
  reading_count: (s) => s.reading_count,
  measure_by: (s) => s.measure_by,
  past_re_measure: (s, { asOf }) => isPastReMeasure({ class: s.class, measureByMs: s.measure_by === null ? null : Date.parse(s.measure_by), stale: s.flags.includes('stale') }, Date.parse(asOf)),
  next_step: (s) => s.watch?.next ?? null,
  next_step_due_at: (s) => s.watch?.due_at ?? null,
  call_state: (s) => callState(s),
  last_call_at: (s) => s.watch?.called_at ?? null,
  advised_line_a: (s) => rounded(s.advised_line_a, 0),
  limit_line_a: (s) => s.limit_line_a,
  limit_in_force_from: (s) => s.limit_in_force_from,
  limit_review_by: (s) => s.limit_review_by,
  voltage_kv: (s) => s.voltage_kv,
  sheet: (s, { origin }) => `${origin}/splices/${s.id}`,
}

/** Of every row, so that a row that is copied out of its file keeps them. */
const ABOUT: Readonly<Record<string, (about: AboutExport) => Cell>> = {
  as_of: ({ asOf }) => asOf, information_mark: ({ mark }) => mark, recipient: ({ recipient }) => recipient,
  left_out_critical: ({ leftOut }) => leftOut.critical, left_out_urgent: ({ leftOut }) => leftOut.urgent, caution: ({ caution }) => caution,
}

export const COLUMNS: readonly string[] = [...Object.keys(CELLS), ...Object.keys(ABOUT)]

export const cellsOf = (splice: ExportRow, about: AboutExport): [column: string, cell: Cell][] => [
  ...Object.entries(CELLS).map(([column, of]): [string, Cell] => [column, of(splice, about)]), ...Object.entries(ABOUT).map(([column, of]): [string, Cell] => [column, of(about)]),
]

/** Whether the control room was told; null where nothing about it asks for a call. */
function callState({ watch }: ExportRow): 'not called' | 'called' | 'no call noted' | null {
  if (watch === null) return null
  return watch.waits_for_call ? 'not called' : watch.called_at === null ? 'no call noted' : 'called'
}

/** 'critical, held, ratio 2.91 (measured 0.60), high confidence'. */
export function standingText({ class: shown, held, ratio, ratio_u: uRatio, measured_ratio: measured, confidence }: ExportRow): string {
  const figures = [ratio !== null && `ratio ${formatRatio(ratio)}${uRatio === null ? '' : ` ± ${uRatio.toFixed(2)}`}`, held && measured !== null && `measured now ${formatRatio(measured)}`].filter(Boolean).join(', ')
  return [`${shown}${held ? ', held' : ''}`, figures || 'no ratio', held ? '' : `${confidence} confidence`].filter(Boolean).join(', ')
}

/** 'advised 1,224 A per phase, limit in force 1,100 A per phase, not called, due 15 Jun 2026'; empty where nothing of it is said. */
export function dutyText(row: ExportRow, { timeZone }: AboutExport): string {
  const { advised_line_a: advisedA, limit_line_a: limitA, watch } = row
  return [
    advisedA !== null && `advised ${formatAllowed(advisedA)} per phase`, limitA !== null && `limit in force ${formatAllowed(limitA)} per phase`,
    callState(row), watch?.due_at && `due ${formatDateTime(Date.parse(watch.due_at), timeZone)}`,
  ].filter(Boolean).join(', ')
}

/** All that is said of a splice in one text, its sheet last. */
export const describedText = (row: ExportRow, about: AboutExport): string =>
  [`${row.circuit}, ${row.place}`, standingText(row), dutyText(row, about), aboutText(about).replace(/\.$/, ''), `Sheet: ${about.origin}/splices/${row.id}`].filter(Boolean).join('. ')
