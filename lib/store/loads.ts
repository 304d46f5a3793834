import { copyRows } from './copy'
import { mustCoverEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db, Tx } from './transaction'

/** What was carried, or what the planner expects: at most, and after the worst single outage elsewhere. */
export type Flow = 'carried' | 'expected-peak' | 'post-contingency'

export interface NewLoad { sectionId: number; takenAt: Date; currentA: number; flow: Flow; quality: string | null }

/** Currents that are held for these sections, flows and moments, by `loadKey`, A per phase. */
export async function heldLoads(scope: Scope, loads: readonly Pick<NewLoad, 'sectionId' | 'flow' | 'takenAt'>[], db: Db): Promise<Map<string, number>> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ section_id: number; flow: Flow; taken_at: Date; current_a: number }>(sql`
    SELECT l.section_id, l.flow, l.taken_at, l.current_a
    FROM unnest(${loads.map((l) => l.sectionId)}::int[], ${loads.map((l) => l.flow)}::text[], ${loads.map((l) => l.takenAt)}::timestamptz[])
      AS v (section_id, flow, taken_at)
    JOIN section_load l ON l.section_id = v.section_id AND l.flow = v.flow AND l.taken_at = v.taken_at`)
  return new Map(rows.map((row) => [loadKey({ sectionId: row.section_id, flow: row.flow, takenAt: row.taken_at }), row.current_a]))
}

export const loadKey = ({ sectionId, flow, takenAt }: Pick<NewLoad, 'sectionId' | 'flow' | 'takenAt'>): string => `${sectionId} ${flow} ${takenAt.getTime()}`

export async function insertLoads(scope: Scope, importId: number, loads: readonly NewLoad[], tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  if (loads.length === 0) return
  await copyRows(tx, 'section_load', ['section_id', 'taken_at', 'current_a', 'flow', 'quality', 'import_id'],
    loads.map((l) => [l.sectionId, l.takenAt, l.currentA, l.flow, l.quality, importId]))
}

/** Takes the loads of an import out again. Says whose circuits had some, and of which sections the planned figures went. */
export async function removeLoads(scope: Scope, importId: number, db: Db): Promise<{ circuitIds: number[]; plannedSectionIds: number[] }> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ circuit_id: number; section_id: number; planned: boolean }>(sql`
    WITH gone AS (DELETE FROM section_load WHERE import_id = ${importId} RETURNING section_id, flow)
    SELECT sec.circuit_id, sec.id AS section_id, bool_or(gone.flow <> 'carried') AS planned FROM gone JOIN section sec ON sec.id = gone.section_id
    GROUP BY sec.circuit_id, sec.id`)
  return {
    circuitIds: [...new Set(rows.map((row) => row.circuit_id))], plannedSectionIds: rows.filter((row) => row.planned).map((row) => row.section_id),
  }
}

export interface PlannedFlows { expectedPeakA?: number; postContingencyA?: number }

/** What the planner last said that each of these sections will carry, A per phase. */
export async function plannedFlowsOf(sectionIds: readonly number[], db: Db): Promise<Map<number, PlannedFlows>> {
  const rows = await db.rows<{ section_id: number; flow: Exclude<Flow, 'carried'>; current_a: number }>(sql`
    SELECT DISTINCT ON (section_id, flow) section_id, flow, current_a FROM section_load
    WHERE section_id = ANY(${sectionIds}::int[]) AND flow IN ('expected-peak', 'post-contingency') ORDER BY section_id, flow, taken_at DESC`)
  const found = new Map<number, PlannedFlows>()
  for (const row of rows) {
    const flows = found.get(row.section_id) ?? {}
    found.set(row.section_id, flows)
    if (row.flow === 'expected-peak') flows.expectedPeakA = row.current_a
    else flows.postContingencyA = row.current_a
  }
  return found
}
