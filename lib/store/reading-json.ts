import type { Candidate, ReadingJson } from '@/lib/contract/contract'
import type { PlacementCandidate, PlacementReason } from '@/lib/geo/types'
import { FIELD_COLUMNS } from './reading-columns'

type Placement = ReadingJson['placement']
type FieldValue = ReadingJson['fields'][string]

/** A row of `readingColumns`. */
export type ReadingRow = Omit<ReadingJson, 'fields' | 'placement'>
  & { [K in Exclude<keyof Placement, 'reasons'> as `p_${K}`]: Placement[K] }
  & { p_reasons: PlacementReason[]; p_candidates: PlacementCandidate[] }

/** How a placement reason reads as a sentence; the caller knows the user's units. */
export type ReasonSentence = (reason: PlacementReason) => string

/** A reading as the API shows it. */
export function readingJson(row: ReadingRow, sentence: ReasonSentence): ReadingJson {
  return {
    id: row.id, reading_id: row.reading_id, import_id: row.import_id, row: row.row, survey: row.survey, kind: row.kind,
    taken_at: row.taken_at, lon: row.lon, lat: row.lat, gnss_accuracy_m: row.gnss_accuracy_m,
    position_of: row.position_of, platform: row.platform, fields: fieldsOf(row), raw_row: row.raw_row,
    placement: {
      state: row.p_state, circuit_id: row.p_circuit_id, circuit: row.p_circuit, section: row.p_section, span_id: row.p_span_id,
      splice_id: row.p_splice_id, splice: row.p_splice, line_distance_m: row.p_line_distance_m, lon: row.p_lon, lat: row.p_lat,
      offset_m: row.p_offset_m, probability: row.p_probability, method: row.p_method,
      reasons: row.p_reasons.map((reason) => ({ code: reason.code, text: sentence(reason) })),
      decided_by: row.p_decided_by, decided_at: row.p_decided_at,
    },
  }
}

function fieldsOf(row: ReadingRow): ReadingJson['fields'] {
  const values = row as unknown as Record<string, FieldValue | null>
  const fields: ReadingJson['fields'] = {}
  for (const [, field] of FIELD_COLUMNS) {
    const value = values[`f_${field}`]
    if (value === null || value === undefined || value === false || (Array.isArray(value) && value.length === 0)) continue
    fields[field] = value
  }
  return fields
}

/** A stored candidate as the API shows it. */
export function candidateJson(c: PlacementCandidate): Candidate {
  return {
    circuit_id: c.circuitId, circuit: c.circuit, section_id: c.sectionId, section: c.section, span_id: c.spanId,
    structure_back: c.structureBack ?? null, structure_ahead: c.structureAhead ?? null, line_distance_m: c.lineDistanceM,
    offset_from_structure_m: c.offsetFromStructureM, lon: c.lon, lat: c.lat, offset_m: c.offsetM, probability: c.probability,
    splices: c.splices.map((s) => ({ splice_id: s.spliceId, splice: s.label ?? `found ${s.spliceId}`, along_m: s.alongM, phase: s.phase ?? null })),
  }
}
