import type { ImportKind } from '../types'

/** What a field is called on screens, and under which heading it is offered. The name in the template stays its name in files. */
export interface FieldLabel {
  label: string
  group: FieldGroup
}

/** Headings in the order in which they are offered. */
export const FIELD_GROUPS = [
  'Which line', 'Where', 'When and who', 'Resistance', 'Infrared', 'Visual', 'Load and weather', 'Ratings', 'Fitting', 'Other',
] as const
export type FieldGroup = (typeof FIELD_GROUPS)[number]

const of = (group: FieldGroup, labels: Readonly<Record<string, string>>): Record<string, FieldLabel> =>
  Object.fromEntries(Object.entries(labels).map(([name, label]) => [name, { label, group }]))

/** Fields that mean the same in every kind of file. */
const COMMON: Readonly<Record<string, FieldLabel>> = {
  ...of('Where', {
    circuit: 'Circuit', section: 'Section', structure_back: 'Structure back', structure_ahead: 'Structure ahead',
    offset_from_structure_m: 'Distance from structure back', span_fraction: 'Share of the span', line_distance_m: 'Line distance',
    phase: 'Phase', position: 'Position on structure', circuit_side: 'Circuit side', subconductor: 'Subconductor', splice_id: 'Splice',
    lon: 'Longitude', lat: 'Latitude', gnss_accuracy_m: 'GPS accuracy', position_of: 'Position belongs to', structure: 'Structure number',
    structure_from: 'From structure', structure_to: 'To structure', aliases: 'Other numbers of the structure',
  }),
  ...of('When and who', {
    reading_id: 'Reading number', survey: 'Survey', taken_at: 'Date and time', kind: 'Kind of reading', platform: 'Platform', crew: 'Crew',
    instrument: 'Instrument', surveyed_on: 'Day of the survey', method: 'Method', result: 'Result',
  }),
  ...of('Resistance', {
    side_a_uohm: 'Side A resistance', side_b_uohm: 'Side B resistance', conductor_uohm: 'Conductor resistance',
    conductor_b_uohm: 'Conductor resistance, other end', electrode_span_m: 'Electrode span', conductor_span_m: 'Electrode span on conductor',
    barrel_electrode_m: 'Electrode from barrel mouth', repeat_no: 'Repeat', test_current: 'Live ac or dead dc',
  }),
  ...of('Infrared', {
    splice_temp_c: 'Splice temperature', conductor_temp_c: 'Reference temperature', reference_kind: 'Reference taken on',
    emissivity: 'Emissivity set', reflected_c: 'Reflected temperature set', distance_m: 'Distance to the splice', view_angle_deg: 'View angle',
    ifov_mrad: 'Angle of one pixel', band: 'Camera band',
  }),
  ...of('Visual', { findings: 'Findings', photo: 'Picture' }),
  ...of('Load and weather', {
    line_current_a: 'Line current', current_30min_a: 'Line current 30 min before', ambient_c: 'Air temperature', wind_m_s: 'Wind speed',
    sun: 'Sun', rain_1h: 'Rain within the hour', current_a: 'Current per phase', quality: 'Quality of the value',
  }),
  ...of('Ratings', {
    voltage_kv: 'Voltage', conductor: 'Conductor', subconductors: 'Conductors per phase', rating_a: 'Normal rating',
    rating_emergency_a: 'Emergency rating', max_operating_c: 'Maximum operating temperature', elevation_m: 'Elevation', mw: 'Load served, MW', radial: 'Radial circuit',
  }),
  ...of('Which line', { line_name: 'Line name', from: 'From substation', to: 'To substation', region: 'Region' }),
  ...of('Fitting', {
    fitting_type: 'Fitting type', barrel_od_mm: 'Barrel diameter', barrel_length_mm: 'Barrel length', installed_on: 'Installed on', batch: 'Batch',
    removed_on: 'Removed on', successor_of: 'Replaces splice', structure_type: 'Structure type',
  }),
  ...of('Other', { after_repair: 'Reading after repair', note: 'Note', name: 'Name', lateral_offset_m: 'Offset from the structures' }),
}

/** Where a kind of file means something else by the same name. */
const OWN: Readonly<Partial<Record<ImportKind, Readonly<Record<string, FieldLabel>>>>> = {
  lines: of('Which line', { circuit: 'Circuit', section: 'Section' }),
  splices: of('Fitting', { kind: 'Kind of fitting' }),
  crossings: of('Other', { kind: 'What is crossed', name: 'Name of the crossing' }),
}

/** A field's words on screens; its own name where it has none, so that nothing is ever without one. */
export const fieldLabel = (kind: ImportKind, name: string): FieldLabel =>
  OWN[kind]?.[name] ?? COMMON[name] ?? { label: name, group: 'Other' }
