import type { Feature, LineString, Position } from 'geojson'
import type { LineCircuit, LineSpan, NetworkLines } from '@/lib/store/tile-sources'
import { spanLanes } from './lanes'

const positions = (span: LineSpan): Position[] =>
  Array.from({ length: span.lonLat.length / 2 }, (_, i) => [span.lonLat[2 * i] ?? 0, span.lonLat[2 * i + 1] ?? 0])

const lineString = (coordinates: Position[], properties: Record<string, unknown>, id?: number): Feature<LineString> =>
  ({ type: 'Feature', id, geometry: { type: 'LineString', coordinates }, properties })

/** Joins spans that follow each other in one section for as long as `sameRun` holds. */
function joinRuns(spans: LineSpan[], sameRun: (a: LineSpan, b: LineSpan) => boolean): { first: LineSpan; coordinates: Position[] }[] {
  const runs: { first: LineSpan; last: LineSpan; coordinates: Position[] }[] = []
  for (const span of spans) {
    const run = runs.at(-1)
    const follows = run && run.last.sectionId === span.sectionId && run.last.ord + 1 === span.ord
    if (run && follows && sameRun(run.last, span)) {
      run.coordinates.push(...positions(span).slice(1))
      run.last = span
    } else runs.push({ first: span, last: span, coordinates: positions(span) })
  }
  return runs
}

/**
 * Usual widths of right-of-way by voltage, metres (75 to 200 feet; common practice, no standard). The band on the map is drawn by it and
 * is no survey.
 */
export function usualRightOfWayM(voltageKv: number | null): number {
  if (voltageKv === null || voltageKv < 100) return 23
  if (voltageKv < 150) return 30
  if (voltageKv < 200) return 38
  return voltageKv < 400 ? 46 : 61
}

/** Ground width in CSS px at zoom 20 (0.0746 m a pixel at the equator, 512 px tiles). */
const pxAtZoom20 = (widthM: number, latDeg: number): number =>
  Math.round(widthM / ((40_075_016.686 / 512 / 2 ** 20) * Math.cos((latDeg * Math.PI) / 180)))

/** '2310 + 2320', and with ', 230 kV' where that holds for all: one text for all on the same structures, left to right. */
function lineLabel(riders: LineCircuit[]): { short: string; label: string } {
  const voltages = [...new Set(riders.map((c) => c.voltageKv))]
  const short = riders.map((c) => c.name).join(' + ')
  return { short, label: voltages.length === 1 && voltages[0] != null ? `${short}, ${voltages[0]} kV` : short }
}

export interface LineFeatures {
  /** Properties circuit, lane, and on one circuit of a corridor short and label. */
  circuits: Feature<LineString>[]
  /** Feature id is the span's; properties circuit, lane, back, ahead. */
  spans: Feature<LineString>[]
  /** Property px20: width in px at zoom 20; one band for all circuits of a corridor. */
  rightOfWay: Feature<LineString>[]
}

const sameRiders = (a: number[], b: number[]) => a.length === b.length && a.every((id, i) => id === b[i])

export function lineFeatures(network: NetworkLines): LineFeatures {
  const lanes = spanLanes(network.spans)
  const lane = (span: LineSpan) => lanes.get(span.id)?.lane ?? 0
  const riders = (span: LineSpan) => lanes.get(span.id)?.riders ?? [span.circuitId]
  /** One circuit speaks for all on the same structures. */
  const speaks = (span: LineSpan) => riders(span).every((id) => id >= span.circuitId)
  const circuitOf = new Map(network.circuits.map((c) => [c.id, c]))
  const label = (span: LineSpan) => lineLabel(riders(span).map((id) => circuitOf.get(id)).filter((c) => c !== undefined))
  const widthM = (span: LineSpan) => Math.max(...riders(span).map((id) => usualRightOfWayM(circuitOf.get(id)?.voltageKv ?? null)))
  return {
    circuits: joinRuns(network.spans, (a, b) => lane(a) === lane(b) && sameRiders(riders(a), riders(b))).map(({ first, coordinates }) => (
      lineString(coordinates, { circuit: first.circuitId, lane: lane(first), ...(speaks(first) ? label(first) : {}) }))),
    spans: network.spans.map((s) => (
      lineString(positions(s), { circuit: s.circuitId, lane: lane(s), back: s.structureBack, ahead: s.structureAhead }, s.id))),
    rightOfWay: joinRuns(network.spans.filter(speaks), (a, b) => widthM(a) === widthM(b))
      .map(({ first, coordinates }) => lineString(coordinates, { px20: pxAtZoom20(widthM(first), first.lonLat[1] ?? 0) })),
  }
}
