import type { ReadingRecord } from '@/lib/intake/reading'

/** Column of the table ← key of the record, in the order in which COPY writes them. */
export const READING_COLUMNS = {
  row_no: 'rowNo', reading_key: 'readingKey', content_hash: 'contentHash', kind: 'kind', taken_at: 'takenAt',
  lon: 'lon', lat: 'lat', sigma_m: 'sigmaM', gnss_accuracy_m: 'gnssAccuracyM', position_of: 'positionOf', platform: 'platform',
  circuit_label: 'circuitLabel', section_label: 'sectionLabel', structure_back: 'structureBack', structure_ahead: 'structureAhead',
  offset_from_structure_m: 'offsetFromStructureM', span_fraction: 'spanFraction', phase: 'phase', position: 'position',
  circuit_side: 'circuitSide', subconductor: 'subconductor', splice_label: 'spliceLabel',
  side_a_uohm: 'sideAUohm', side_b_uohm: 'sideBUohm', conductor_uohm: 'conductorUohm', conductor_b_uohm: 'conductorBUohm', conductor_unusable: 'conductorUnusable',
  electrode_span_m: 'electrodeSpanM', conductor_span_m: 'conductorSpanM', barrel_electrode_m: 'barrelElectrodeM',
  repeat_no: 'repeatNo', test_current: 'testCurrent', line_current_a: 'lineCurrentA', current_30min_a: 'current30minA',
  splice_temp_c: 'spliceTempC', conductor_temp_c: 'conductorTempC', reference_kind: 'referenceKind', ambient_c: 'ambientC',
  wind_m_s: 'windMS', sun: 'sun', rain_1h: 'rain1h', emissivity: 'emissivity', reflected_c: 'reflectedC', distance_m: 'distanceM',
  view_angle_deg: 'viewAngleDeg', ifov_mrad: 'ifovMrad', band: 'band', findings: 'findings', after_repair: 'afterRepair',
  crew: 'crew', instrument: 'instrument', photo: 'photo', note: 'note', raw_row: 'rawRow',
} as const satisfies Record<string, keyof ReadingRecord>

export type ReadingColumn = keyof typeof READING_COLUMNS

/** Columns that go by another name in files and in the API. */
const TEMPLATE_NAMES: Partial<Record<ReadingColumn, string>> = { circuit_label: 'circuit', section_label: 'section', splice_label: 'splice_id' }

const SHOWN_APART: readonly ReadingColumn[] = [
  'row_no', 'reading_key', 'content_hash', 'kind', 'taken_at', 'lon', 'lat', 'sigma_m', 'gnss_accuracy_m', 'position_of', 'platform', 'raw_row',
]

/** The API's `fields`: column of the table → name of the template. */
export const FIELD_COLUMNS: readonly (readonly [ReadingColumn, string])[] = (Object.keys(READING_COLUMNS) as ReadingColumn[])
  .filter((column) => !SHOWN_APART.includes(column))
  .map((column) => [column, TEMPLATE_NAMES[column] ?? column])
