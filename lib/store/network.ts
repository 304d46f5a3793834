import type { KnownSplice, NetworkSection, NetworkSpan, NetworkStructure, PhasingRow } from '@/lib/geo/types'
import { nameKey } from '@/lib/geo'
import { onCircuit, type Scope } from './scope'
import { sql } from './sql/sql'
import { knownSplicesQuestion, networkSectionsQuestion, networkSpansQuestion, networkStructuresQuestion, phasingQuestion } from './sql/network'
import { database, type Db } from './transaction'

/** Everything placing needs to know, as lib/geo takes it. */
export interface StoredNetwork {
  sections: NetworkSection[]
  spans: NetworkSpan[]
  structures: NetworkStructure[]
  phasing: PhasingRow[]
}

interface SectionRow { id: number; circuit_id: number; circuit: string; name: string; voltage_kv: number | null; lateral_offset_m: number | null; length_m: number; lon_lat: number[] }
interface SpanRow { id: number; section_id: number; circuit_id: number; back: string | null; ahead: string | null; start_m: number; end_m: number; lon_lat: number[] }
interface StructureRow { section_id: number; label: string; aliases: string[]; line_distance_m: number }
interface PhasingRangeRow { circuit_id: number; section_id: number; start_m: number; end_m: number; position: string; phase: string }

/** Sections, spans, structures and phasing of every circuit within the scope. */
export async function loadNetwork(scope: Scope, db: Db = database()): Promise<StoredNetwork> {
  const where = onCircuit(scope, 'sec.circuit_id')
  const sections = await db.rows<SectionRow>(networkSectionsQuestion(where))
  const spans = await db.rows<SpanRow>(networkSpansQuestion(where))
  const structures = await db.rows<StructureRow>(networkStructuresQuestion(where))
  const phasing = await db.rows<PhasingRangeRow>(phasingQuestion(where))
  return {
    sections: sections.map((s) => ({
      sectionId: s.id, circuitId: s.circuit_id, circuit: s.circuit, section: s.name, voltageKv: s.voltage_kv ?? undefined,
      lateralOffsetM: s.lateral_offset_m ?? undefined, lengthM: s.length_m, lonLat: Float64Array.from(s.lon_lat),
    })),
    spans: spans.map((s) => ({
      spanId: s.id, sectionId: s.section_id, circuitId: s.circuit_id, structureBack: s.back ?? undefined, structureAhead: s.ahead ?? undefined,
      startM: s.start_m, endM: s.end_m, lonLat: Float64Array.from(s.lon_lat),
    })),
    structures: structures.map((s) => ({ sectionId: s.section_id, label: s.label, aliases: s.aliases, lineDistanceM: s.line_distance_m })),
    phasing: phasing.map((p) => ({
      circuitId: p.circuit_id, sectionId: p.section_id, startM: p.start_m, endM: p.end_m, position: p.position, phase: p.phase,
    })),
  }
}

interface KnownSpliceRow {
  id: number; label: string | null; circuit_id: number; section_id: number; span_id: number; line_distance_m: number
  phase: string | null; position: string | null; circuit_side: string | null; subconductor: string | null
}

/** Splices in service, as placing matches readings to them. */
export async function loadKnownSplices(scope: Scope, db: Db = database()): Promise<KnownSplice[]> {
  const rows = await db.rows<KnownSpliceRow>(knownSplicesQuestion(onCircuit(scope, 's.circuit_id')))
  return rows.map((s) => ({
    spliceId: s.id, label: s.label ?? undefined, circuitId: s.circuit_id, sectionId: s.section_id, spanId: s.span_id, lineDistanceM: s.line_distance_m,
    phase: s.phase ?? undefined, position: s.position ?? undefined, circuitSide: s.circuit_side ?? undefined, subconductor: s.subconductor ?? undefined,
  }))
}

/** The names that splices of these circuits have, as `circuitId nameKey`. */
export async function spliceLabels(scope: Scope, circuitIds: readonly number[], db: Db): Promise<Set<string>> {
  const rows = await db.rows<{ circuit_id: number; label: string }>(sql`
    SELECT s.circuit_id, s.label FROM splice s
    WHERE s.circuit_id = ANY(${circuitIds}::int[]) AND s.label IS NOT NULL AND ${onCircuit(scope, 's.circuit_id')}`)
  return new Set(rows.map((row) => `${row.circuit_id} ${nameKey(row.label)}`))
}
