import type { AssembledSection } from '@/lib/geo'
import type { LineRecord } from '@/lib/intake'
import type { RowValues } from '@/lib/store/rows'
import type { Issue } from '../importing/issue-log'

type Key = Exclude<keyof LineRecord, 'pieces' | 'recordType' | 'rowNo' | 'rawRow' | 'circuit' | 'section'>

/** Column of the store ← field of the record. */
const CIRCUIT_FIELDS = {
  line_name: 'lineName', from_name: 'from', to_name: 'to', voltage_kv: 'voltageKv', region: 'region', radial: 'radial', mw: 'mw',
} as const satisfies Record<string, Key>

const SECTION_FIELDS = {
  from_name: 'from', to_name: 'to', conductor_code: 'conductor', subconductors: 'subconductors', rating_a: 'ratingA',
  rating_emergency_a: 'ratingEmergencyA', max_operating_c: 'maxOperatingC', elevation_m: 'elevationM', lateral_offset_m: 'lateralOffsetM',
} as const satisfies Record<string, Key>

/** What the features of a section say of the circuit, and of the section. Empty cells say nothing. */
export const circuitValues = (section: AssembledSection<LineRecord>): RowValues => valuesOf(section.features, CIRCUIT_FIELDS)
export const sectionValues = (section: AssembledSection<LineRecord>): RowValues => valuesOf(section.features, SECTION_FIELDS)

function valuesOf(features: readonly LineRecord[], fields: Record<string, Key>): RowValues {
  const values: RowValues = {}
  for (const [column, key] of Object.entries(fields)) {
    const value = features.find((feature) => feature[key] !== null)?.[key]
    if (value !== undefined && value !== null) values[column] = value
  }
  return values
}

/** Only what differs from the row as it stands. */
export function differing(values: RowValues, row: object): RowValues {
  const held = row as Record<string, unknown>
  return Object.fromEntries(Object.entries(values).filter(([column, value]) => held[column] !== value))
}

/** Features of one section that contradict each other: the first that says something counts. */
export function contradictions(section: AssembledSection<LineRecord>): Issue[] {
  return Object.entries({ ...CIRCUIT_FIELDS, ...SECTION_FIELDS }).flatMap(([column, key]) => {
    const first = section.features.find((feature) => feature[key] !== null)
    const other = section.features.find((feature) => feature[key] !== null && feature[key] !== first?.[key])
    if (!first || !other) return []
    return [{
      severity: 'warning' as const, row: other.rowNo, field: column, value: String(other[key]), code: 'attributes-differ',
      message: `Circuit ${section.circuit}, section ${section.section}: row ${first.rowNo} says ${String(first[key])}, this row says ${String(other[key])}.`,
      remedy: `The first is used. Give the piece a section name of its own where ${String(other[key])} is right for it.`,
    }]
  })
}
