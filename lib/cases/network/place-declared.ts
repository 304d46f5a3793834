import { shortDistanceM, type LengthText } from '@/lib/geo'
import type { SpliceRecord } from '@/lib/intake'
import type { Issue } from '../importing/issue-log'
import { unknownCircuit, unknownSection, unknownStructure } from '../kinds/unknown-names'
import { placeAt, type AnchoredPlace } from './anchor'
import { conductorPoint } from './conductor'
import { standingOf, type StoredLine, type StoredLines } from './stored-lines'

/** Lengths measured twice differ by this share. */
const SHARE = 0.01
/** A distance this far outside its declared span still counts as in it. */
const SLACK_M = 15
/** Readings this close to mid-span are taken for a splice whose place in its span is not known. */
const MID_SPAN_REACH_M = 15
/** A splice lies this close to its conductor where a file gives its position. */
const BESIDE_M = 50

export interface DeclaredPlace extends AnchoredPlace { line: StoredLine; spanId: number; lon: number; lat: number; issues: Issue[] }

/** Where a file of splices says that one is: between structures, at a line distance, or by position. Otherwise what is wrong. */
export function placeDeclared(lines: StoredLines, r: SpliceRecord, length: LengthText): DeclaredPlace | Issue {
  const own = lines.find(r.circuit, r.section)
  if (own.length === 0) return r.section !== null && lines.hasCircuit(r.circuit) ? unknownSection(r.rowNo, r.circuit, r.section) : unknownCircuit(r.rowNo, r.circuit, lines.circuits)
  const found = r.structureBack !== null || r.structureAhead !== null ? byStructures(own, r, length) : r.lineDistanceM !== null ? byDistance(own, r, length) : byPosition(own, r, length)
  if ('code' in found) return found
  const place = placeAt(found.lineDistanceM, found.line.spans.map((s) => ({ startM: s.start_m, endM: s.end_m, structureBackId: s.structure_back_id })))
  const span = place && found.line.spans[place.span]
  if (!place || !span) return withoutPlace(r)
  return { ...place, line: found.line, spanId: span.id, issues: found.issues, ...conductorPoint(found.line, place.lineDistanceM) }
}

interface Found { line: StoredLine; lineDistanceM: number; issues: Issue[] }

function byStructures(own: readonly StoredLine[], r: SpliceRecord, length: LengthText): Found | Issue {
  const line = own.find((l) => [r.structureBack, r.structureAhead].every((label) => label === null || standingOf(l, label)))
  if (!line) {
    const missing = r.structureBack !== null && !own.some((l) => standingOf(l, r.structureBack ?? '')) ? ['structure_back', r.structureBack] as const
      : ['structure_ahead', r.structureAhead ?? ''] as const
    return unknownStructure(r.rowNo, missing[0], missing[1], `circuit ${r.circuit}`)
  }
  const [startM, endM] = stretch(line, r)
  if (r.lineDistanceM !== null) {
    const slackM = Math.max(SLACK_M, r.lineDistanceM * SHARE)
    if (r.lineDistanceM < startM - slackM || r.lineDistanceM > endM + slackM) return contradicts(r, startM, endM, length)
    return { line, lineDistanceM: Math.min(Math.max(r.lineDistanceM, startM), endM), issues: [] }
  }
  const byLonLat = r.lon === null ? null : nearestOn(line, r.lon, r.lat ?? 0)
  if (byLonLat) return { line, lineDistanceM: Math.min(Math.max(byLonLat, startM), endM), issues: [] }
  return { line, lineDistanceM: (startM + endM) / 2, issues: [midSpan(r, length)] }
}

/** From the structure back to the one ahead; where one is not named, to its neighbour. */
function stretch(line: StoredLine, r: SpliceRecord): [startM: number, endM: number] {
  const back = r.structureBack === null ? undefined : standingOf(line, r.structureBack)
  const ahead = r.structureAhead === null ? undefined : standingOf(line, r.structureAhead)
  const ends = [back?.line_distance_m ?? 0, ahead?.line_distance_m ?? line.lengthM]
  if (!back && ahead) ends[0] = line.spans.find((s) => s.structure_ahead_id === ahead.structure_id)?.start_m ?? 0
  if (!ahead && back) ends[1] = line.spans.find((s) => s.structure_back_id === back.structure_id)?.end_m ?? line.lengthM
  return [Math.min(...ends), Math.max(...ends)]
}

function byDistance(own: readonly StoredLine[], r: SpliceRecord, length: LengthText): Found | Issue {
  const line = own.find((l) => l.section === 'main') ?? own[0]
  const distanceM = r.lineDistanceM ?? 0
  if (!line) return withoutPlace(r)
  if (own.length > 1 && r.section === null) {
    return {
      severity: 'error', row: r.rowNo, field: 'section', code: 'section-missing',
      message: `Circuit ${r.circuit} has ${own.length} sections, and each counts its own line distance.`, remedy: 'Name the section, or the structures.',
    }
  }
  if (distanceM > line.lengthM * (1 + SHARE)) {
    return {
      severity: 'error', row: r.rowNo, field: 'line_distance_m', value: String(distanceM), code: 'beyond-the-line',
      message: `${length(distanceM)} lies beyond the end of circuit ${r.circuit}, section ${line.section}, which is ${length(line.lengthM)} long.`,
      remedy: 'Count from the named end of the section, and check the unit of the column.',
    }
  }
  return { line, lineDistanceM: Math.min(distanceM, line.lengthM), issues: [] }
}

function byPosition(own: readonly StoredLine[], r: SpliceRecord, length: LengthText): Found | Issue {
  if (r.lon === null || r.lat === null) return withoutPlace(r)
  for (const line of own) {
    const lineDistanceM = nearestOn(line, r.lon, r.lat)
    if (lineDistanceM !== null) return { line, lineDistanceM, issues: [] }
  }
  return {
    severity: 'error', row: r.rowNo, field: 'lon', value: `${r.lon}, ${r.lat}`, code: 'off-the-line',
    message: `The position lies more than ${length(BESIDE_M)} from circuit ${r.circuit}.`, remedy: 'Check lon and lat, or name the structures.',
  }
}

/** Line distance of the conductor's point nearest to a position, found by halving steps; null beyond 50 m. */
function nearestOn(line: StoredLine, lon: number, lat: number): number | null {
  const distanceAt = (m: number): number => {
    const at = conductorPoint(line, m)
    return shortDistanceM(at.lon, at.lat, lon, lat)
  }
  const vertices = [...line.distancesM]
  const nearest = vertices.reduce((best, m, i) => (distanceAt(m) < distanceAt(vertices[best] ?? 0) ? i : best), 0)
  let [low, high] = [vertices[Math.max(nearest - 1, 0)] ?? 0, vertices[Math.min(nearest + 1, vertices.length - 1)] ?? 0]
  while (high - low > 0.01) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3]
    if (distanceAt(a) < distanceAt(b)) high = b
    else low = a
  }
  const found = (low + high) / 2
  return distanceAt(found) <= BESIDE_M ? found : null
}

const withoutPlace = (r: SpliceRecord): Issue => ({
  severity: 'error', row: r.rowNo, field: 'structure_back', code: 'splice-without-place',
  message: `Nothing says where on circuit ${r.circuit} this splice is.`, remedy: 'Give structure_back and structure_ahead, or line_distance_m.',
})

const contradicts = (r: SpliceRecord, startM: number, endM: number, length: LengthText): Issue => ({
  severity: 'error', row: r.rowNo, field: 'line_distance_m', value: String(r.lineDistanceM), code: 'distance-contradicts-structures',
  message: `${length(r.lineDistanceM ?? 0)} does not lie between structures ${r.structureBack ?? '?'} and ${r.structureAhead ?? '?'}, which stand at `
    + `${length(startM)} and ${length(endM)}.`,
  remedy: 'Correct the structures or the line distance.',
})

const midSpan = (r: SpliceRecord, length: LengthText): Issue => ({
  severity: 'warning', row: r.rowNo, field: 'line_distance_m', code: 'place-in-span-unknown',
  message: `Nothing says where between structures ${r.structureBack ?? '?'} and ${r.structureAhead ?? '?'} the splice is: it is drawn in mid-span.`,
  remedy: `Give line_distance_m where it is known; readings with a position within ${length(MID_SPAN_REACH_M)} of mid-span will be taken for it.`,
})
