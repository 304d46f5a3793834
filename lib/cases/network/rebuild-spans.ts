import { buildSpans, type AttachedStructure, type GeoIssue, type StructurePoint } from '@/lib/geo'
import { anchorRows, sectionRows, spanRows, standingRows, type AnchorRow, type SpanRow, type StandingRow } from '@/lib/store/network-rows'
import { importsCovering, moveExtents, moveSplices, removeSpans, writeSpans, type MovedSplice, type NewSpan } from '@/lib/store/network-writes'
import { rebuildCoverage } from '@/lib/store/coverage'
import type { Scope } from '@/lib/store/scope'
import type { Tx } from '@/lib/store/transaction'
import { anchorOn, placeAt } from './anchor'
import { conductorPoint, sectionKey, sectionLine, type SectionLine } from './conductor'

/** A splice that has no place on the geometry as it is now. */
export interface LostSplice { sectionKey: string; splice: string }

export interface Rebuilt {
  lost: LostSplice[]
  /** Spans so long that structures are likely to be missing. */
  issues: GeoIssue[]
  /** Circuits whose spans or coverage changed. */
  circuitIds: number[]
}

/**
 * Makes the spans of these sections follow from their geometry and structures, and moves what hangs on them: splices keep
 * structure and offset, readings stay on their splice, patrols stay between their structures. `redrawn` names the sections whose
 * line itself is new, with the row it comes from. Where a splice finds no place nothing is written and the caller rolls back.
 */
export async function rebuildSpans(
  scope: Scope, tx: Tx, sectionIds: readonly number[], redrawn: ReadonlyMap<number, number> = new Map(),
): Promise<Rebuilt> {
  if (sectionIds.length === 0) return { lost: [], issues: [], circuitIds: [] }
  const wanted = new Set(sectionIds)
  const lines = (await sectionRows(scope, tx)).filter((row) => wanted.has(row.id)).map(sectionLine)
  const standings = groupBy((await standingRows(scope, tx)).filter((row) => wanted.has(row.section_id)), (row) => row.section_id)
  const oldSpans = groupBy(await spanRows(scope, sectionIds, tx), (row) => row.section_id)
  const anchors = groupBy(await anchorRows(scope, sectionIds, tx), (row) => row.section_id)
  const covering = await importsCovering(scope, sectionIds, tx)

  const plans = lines.map((line) => planSection(line, standings.get(line.id) ?? [], oldSpans.get(line.id) ?? [], anchors.get(line.id) ?? [],
    redrawn.get(line.id)))
  const lost = plans.flatMap((plan) => plan.lost)
  const issues = plans.flatMap((plan) => plan.issues)
  if (lost.length > 0) return { lost, issues, circuitIds: [] }

  const ids = await writeSpans(scope, sectionIds, plans.flatMap((p) => p.kept), plans.flatMap((p) => p.added), tx)
  let taken = 0
  const moved = plans.flatMap((plan) => {
    const added = plan.added.map((span) => ({ ord: span.ord, id: ids[taken++] ?? 0 }))
    const idOf = new Map([...plan.kept, ...added].map((span) => [span.ord, span.id]))
    return plan.moved.map(({ ord, ...splice }) => ({ ...splice, spanId: idOf.get(ord) ?? 0 }))
  })
  await moveSplices(scope, moved, tx)
  await removeSpans(scope, plans.flatMap((p) => p.removed), tx)
  await moveExtents(scope, sectionIds, tx)
  const covered = await rebuildCoverage(scope, covering, tx)
  return { lost, issues, circuitIds: [...new Set([...lines.map((line) => line.circuitId), ...covered])] }
}

interface SectionPlan {
  kept: { id: number; ord: number }[]
  added: NewSpan[]
  removed: number[]
  moved: (Omit<MovedSplice, 'spanId'> & { ord: number })[]
  lost: LostSplice[]
  issues: GeoIssue[]
}

function planSection(
  line: SectionLine, standings: readonly StandingRow[], old: readonly SpanRow[], anchors: readonly AnchorRow[], redrawnByRow: number | undefined,
): SectionPlan {
  const { spans, issues } = spansOf(line, standings, redrawnByRow ?? 0)
  const unused = new Map(old.map((span) => [spanKey(span), span]))
  const plan: SectionPlan = { kept: [], added: [], removed: [], moved: [], lost: [], issues: redrawnByRow === undefined ? [] : issues }
  for (const span of spans) {
    const same = unused.get(spanKey({ structure_back_id: span.structureBackId, structure_ahead_id: span.structureAheadId }))
    if (same && isSameSpan(same, span)) {
      unused.delete(spanKey(same))
      plan.kept.push({ id: same.id, ord: span.ord })
    } else plan.added.push(span)
  }
  const keptIds = new Set(plan.kept.map((span) => span.id))
  plan.removed = old.filter((span) => !keptIds.has(span.id)).map((span) => span.id)

  const standsAtM = new Map(standings.map((s) => [s.structure_id, s.line_distance_m]))
  for (const anchor of anchors) {
    const hangs = { structureBackId: anchor.structure_back_id, offsetM: anchor.offset_m, lineDistanceM: anchor.line_distance_m }
    const place = anchorOn(hangs, spans, standsAtM, line.lengthM) ?? (redrawnByRow === undefined ? placeAt(anchor.line_distance_m, spans) : null)
    if (!place) {
      plan.lost.push({ sectionKey: sectionKey(line.circuit, line.section), splice: anchor.splice })
      continue
    }
    plan.moved.push({
      id: anchor.id, ord: place.span, lineDistanceM: place.lineDistanceM, shiftM: place.lineDistanceM - anchor.line_distance_m,
      structureBackId: place.structureBackId, offsetM: place.offsetM, ...conductorPoint(line, place.lineDistanceM),
    })
  }
  return plan
}

function spansOf(line: SectionLine, standings: readonly StandingRow[], row: number): { spans: NewSpan[]; issues: GeoIssue[] } {
  const attached: AttachedStructure<StructurePoint & { id: number }>[] = standings.map((s) => ({
    structure: { id: s.structure_id, rowNo: 0, circuit: line.circuit, section: line.section, structure: s.label, lon: s.lon, lat: s.lat, lineDistanceM: null },
    section: 0, lineDistanceM: s.line_distance_m, besideM: 0, at: 'line', lon: s.lon, lat: s.lat,
  }))
  const built = buildSpans(line, attached, row)
  const spans = built.spans.map((span) => ({
    sectionId: line.id, ord: span.ord, structureBackId: span.structureBack?.structure.id ?? null, structureAheadId: span.structureAhead?.structure.id ?? null,
    startM: span.startM, endM: span.endM, lonLat: span.lonLat,
  }))
  return { spans, issues: built.issues }
}

const spanKey = (s: { structure_back_id: number | null; structure_ahead_id: number | null }) => `${s.structure_back_id} ${s.structure_ahead_id}`

function isSameSpan(old: SpanRow, span: NewSpan): boolean {
  return old.start_m === span.startM && old.end_m === span.endM && old.lon_lat.length === span.lonLat.length
    && old.lon_lat.every((v, i) => v === span.lonLat[i])
}

function groupBy<T>(rows: readonly T[], keyOf: (row: T) => number): Map<number, T[]> {
  const groups = new Map<number, T[]>()
  for (const row of rows) {
    const group = groups.get(keyOf(row))
    if (group) group.push(row)
    else groups.set(keyOf(row), [row])
  }
  return groups
}
