import type { Evidence, Finding, PreviousShown, SpliceFacts, SpliceKind } from '@/lib/condition'
import { azimuthDeg } from '@/lib/geo'
import { plannedFlowsOf, type PlannedFlows } from './loads'
import { onCircuit, type Scope } from './scope'
import { evidenceQuestion, subjectsQuestion } from './sql/evidence'
import { sql } from './sql/sql'
import type { Db } from './transaction'

/** A splice in service with all that is known of it: what the engine takes. */
export interface Subject {
  spliceId: number
  circuitId: number
  circuit: string
  facts: SpliceFacts
  evidence: Evidence[]
  /** What is on show now; null for a splice that was never assessed. */
  previous: PreviousShown | null
}

interface SubjectRow {
  splice_id: number; section_id: number; circuit_id: number; circuit: string; kind: SpliceKind; fitting_type: string | null; barrel_od_mm: number | null; barrel_length_mm: number | null
  conductor_code: string | null; subconductors: number; rating_a: number | null; max_operating_c: number | null; elevation_m: number | null
  installed_on: string | null; voltage_kv: number | null; lon: number; lat: number; from_lon: number; from_lat: number; to_lon: number; to_lat: number
  back: string | null; ahead: string | null; class: PreviousShown['class'] | null; found_at: Date | null; found_ratio: number | null
  found_reading_id: number | null; degraded_since: Date | null; urgent_since: Date | null; critical_since: Date | null; cleared_at: Date | null
  /** Null where it was never assessed. */
  reading_count: number | null
}

/** A row of evidence, as the store holds it. */
export interface EvidenceRow {
  splice_id: number; id: number; kind: 'resistance' | 'infrared' | 'visual'; taken_at: Date | null; survey: string; instrument: string | null; after_repair: boolean
  structure_back: string | null; structure_ahead: string | null
  side_a_uohm: number | null; side_b_uohm: number | null; conductor_uohm: number | null; conductor_b_uohm: number | null
  conductor_unusable: string | null; electrode_span_m: number | null; conductor_span_m: number | null; barrel_electrode_m: number | null; repeat_no: number | null
  test_current: 'live-ac' | 'dead-dc' | null; line_current_a: number | null; current_30min_a: number | null
  splice_temp_c: number | null; conductor_temp_c: number | null; reference_kind: 'own-conductor' | 'same-fitting' | 'air' | null
  ambient_c: number | null; wind_m_s: number | null; sun: 'none' | 'diffuse' | 'direct' | null; rain_1h: boolean | null
  emissivity: number | null; reflected_c: number | null; distance_m: number | null; view_angle_deg: number | null; ifov_mrad: number | null
  band: 'lw' | 'mw' | null; findings: Finding[]
}

/**
 * Holds these splices until the transaction ends, so that two writers of their evidence come one after the other and the second sees
 * what the first wrote. Always taken in the order of their ids: nobody waits in a circle.
 */
export async function lockSplices(scope: Scope, spliceIds: readonly number[], db: Db): Promise<void> {
  await db.run(sql`
    SELECT FROM splice s WHERE s.id = ANY(${spliceIds}::int[]) AND ${onCircuit(scope, 's.circuit_id')} ORDER BY s.id FOR NO KEY UPDATE`)
}

/** Evidence of an import that is under way: its readings are at hand and need not be read back. */
export interface EvidenceAtHand {
  importId: number
  rowsOf(spliceId: number): readonly Omit<EvidenceRow, 'splice_id'>[]
}

/**
 * These splices, as far as they are in service and within the scope, each to be read when it is looked at: the evidence of many splices at once
 * would be many objects.
 */
export async function loadSubjects(scope: Scope, spliceIds: readonly number[], db: Db, atHand?: EvidenceAtHand): Promise<(() => Subject)[]> {
  const rows = await db.rows<SubjectRow>(subjectsQuestion(spliceIds, onCircuit(scope, 's.circuit_id')))
  // A splice that was assessed on no reading so far has no other evidence than what is at hand.
  const asked = atHand ? rows.filter((row) => row.reading_count !== 0).map((row) => row.splice_id) : rows.map((row) => row.splice_id)
  const flows = await plannedFlowsOf([...new Set(rows.map((row) => row.section_id))], db)
  const stored = asked.length === 0 ? [] : await db.rows<EvidenceRow>(evidenceQuestion(asked, atHand?.importId ?? null))
  const storedOf = new Map<number, EvidenceRow[]>()
  for (const row of stored) {
    const list = storedOf.get(row.splice_id)
    if (list) list.push(row)
    else storedOf.set(row.splice_id, [row])
  }
  return rows.map((row) => () => ({
    spliceId: row.splice_id, circuitId: row.circuit_id, circuit: row.circuit, facts: factsOf(row, flows.get(row.section_id)),
    evidence: [...storedOf.get(row.splice_id) ?? [], ...atHand?.rowsOf(row.splice_id) ?? []].map((one) => evidenceOf(one, row)),
    previous: row.class && previousOf(row, row.class),
  }))
}

const previousOf = (row: SubjectRow, shown: PreviousShown['class']): PreviousShown => ({
  class: shown, foundAtMs: row.found_at?.getTime(), foundRatio: known(row.found_ratio),
  foundReadingIds: row.found_reading_id === null ? undefined : [row.found_reading_id], clearedAtMs: row.cleared_at?.getTime(),
  clocks: { degraded: row.degraded_since?.getTime(), urgent: row.urgent_since?.getTime(), critical: row.critical_since?.getTime() },
})

const factsOf = (row: SubjectRow, flows: PlannedFlows | undefined): SpliceFacts => ({
  kind: row.kind, fittingType: row.fitting_type ?? undefined, barrelOdMm: row.barrel_od_mm ?? undefined, barrelLengthMm: row.barrel_length_mm ?? undefined,
  conductorCode: row.conductor_code ?? undefined, subconductors: row.subconductors, ratingA: row.rating_a ?? undefined,
  maxOperatingC: row.max_operating_c ?? undefined, voltageKv: row.voltage_kv ?? undefined, latitudeDeg: row.lat, longitudeDeg: row.lon,
  elevationM: row.elevation_m ?? undefined, installedAtMs: row.installed_on === null ? undefined : Date.parse(row.installed_on),
  // A conductor hangs straight between its structures, whatever shape points lie between.
  lineAzimuthDeg: azimuthDeg(row.from_lon, row.from_lat, row.to_lon, row.to_lat),
  expectedPeakA: flows?.expectedPeakA, postContingencyA: flows?.postContingencyA,
})

const known = <T>(value: T | null): T | undefined => (value === null ? undefined : value)

// Each kind is one literal, because there are many readings.
export function evidenceOf(row: Omit<EvidenceRow, 'splice_id'>, subject: { back: string | null; ahead: string | null }): Evidence {
  const takenAtMs = row.taken_at?.getTime()
  if (row.kind === 'visual') {
    return {
      source: 'visual', readingId: row.id, takenAtMs, survey: row.survey, instrument: known(row.instrument), afterRepair: row.after_repair, findings: row.findings,
    }
  }
  if (row.kind === 'infrared') {
    return {
      source: 'infrared', readingId: row.id, takenAtMs, survey: row.survey, instrument: known(row.instrument), afterRepair: row.after_repair,
      spliceTempC: known(row.splice_temp_c), conductorTempC: known(row.conductor_temp_c), referenceKind: known(row.reference_kind),
      ambientC: known(row.ambient_c), windMS: known(row.wind_m_s), sun: known(row.sun), rain1h: known(row.rain_1h), lineCurrentA: known(row.line_current_a),
      current30minA: known(row.current_30min_a), emissivity: known(row.emissivity), reflectedC: known(row.reflected_c), distanceM: known(row.distance_m),
      viewAngleDeg: known(row.view_angle_deg), ifovMrad: known(row.ifov_mrad), band: known(row.band),
    }
  }
  // Side A faces the structure that the crew called back. Where that is the one ahead by line distance, the sides change places.
  const reversed = row.structure_back !== null ? row.structure_back === subject.ahead : row.structure_ahead !== null && row.structure_ahead === subject.back
  return {
    source: 'resistance', readingId: row.id, takenAtMs, survey: row.survey, instrument: known(row.instrument), afterRepair: row.after_repair,
    sideAUohm: known(reversed ? row.side_b_uohm : row.side_a_uohm), sideBUohm: known(reversed ? row.side_a_uohm : row.side_b_uohm),
    conductorUohm: known(row.conductor_uohm), conductorBUohm: known(row.conductor_b_uohm), conductorUnusable: known(row.conductor_unusable), electrodeSpanM: known(row.electrode_span_m),
    conductorSpanM: known(row.conductor_span_m), barrelElectrodeM: known(row.barrel_electrode_m), repeatNo: known(row.repeat_no),
    testCurrent: known(row.test_current), lineCurrentA: known(row.line_current_a), conductorTempC: known(row.conductor_temp_c),
    ambientC: known(row.ambient_c), sidesDeclared: row.structure_back !== null || row.structure_ahead !== null,
  }
}
