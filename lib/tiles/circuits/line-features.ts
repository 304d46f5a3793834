import type { Feature, LineString, Position } from 'geojson'
import { offsetLine } from '@/lib/geo'
import type { LineCircuit, LineSpan, NetworkLines } from '@/lib/store/tile-sources'
import { lanesLeft, spanLanes } from './lanes'
import { placeKey } from './network-lines'

type LonLat = ArrayLike<number>

const positions = (lonLat: LonLat): Position[] =>
  Array.from({ length: lonLat.length / 2 }, (_, i) => [lonLat[2 * i] ?? 0, lonLat[2 * i + 1] ?? 0])

const lineString = (coordinates: Position[], properties: Record<string, unknown>, id?: number): Feature<LineString> =>
  ({ type: 'Feature', id, geometry: { type: 'LineString', coordinates }, properties })

const follows = (a: LineSpan, b: LineSpan): boolean => a.sectionId === b.sectionId && a.ord + 1 === b.ord

/** Joins spans that follow each other in one section for as long as `sameRun` holds. */
function joinRuns(
  spans: LineSpan[], lineOf: (span: LineSpan) => LonLat, sameRun: (a: LineSpan, b: LineSpan) => boolean,
): { first: LineSpan; coordinates: Position[] }[] {
  const runs: { first: LineSpan; last: LineSpan; coordinates: Position[] }[] = []
  for (const span of spans) {
    const run = runs.at(-1)
    if (run && follows(run.last, span) && sameRun(run.last, span)) {
      run.coordinates.push(...positions(lineOf(span)).slice(1))
      run.last = span
    } else runs.push({ first: span, last: span, coordinates: positions(lineOf(span)) })
  }
  return runs
}

/** Where the conductors of each span hang: beside the centreline by the section's lateral offset, bisected at the structures. */
function conductors(spans: LineSpan[]): (span: LineSpan) => LonLat {
  const moved = new Map<number, LonLat>()
  let chain: LineSpan[] = []
  const close = () => {
    const offsetM = chain[0]?.lateralOffsetM ?? 0
    if (offsetM !== 0) {
      const line = offsetLine(Float64Array.from(chain.flatMap((s, i) => (i === 0 ? s.lonLat : s.lonLat.slice(2)))), offsetM)
      let at = 0
      for (const { id, lonLat } of chain) {
        moved.set(id, line.subarray(at, at + lonLat.length))
        at += lonLat.length - 2
      }
    }
    chain = []
  }
  for (const span of spans) {
    const last = chain.at(-1)
    if (last && !follows(last, span)) close()
    chain.push(span)
  }
  close()
  return (span) => moved.get(span.id) ?? span.lonLat
}

/** From the outermost conductor to the outermost on the other side, through the structure. */
function arms(spans: LineSpan[], conductor: (span: LineSpan) => LonLat): Feature<LineString>[] {
  const ends = new Map<string, Position[]>()
  for (const span of spans) {
    const line = positions(conductor(span))
    const centre = positions(span.lonLat)
    for (const at of [0, -1]) {
      const [lon = 0, lat = 0] = centre.at(at) ?? []
      const [x = 0, y = 0] = line.at(at) ?? []
      if (x === lon && y === lat) continue
      const key = placeKey(lon, lat)
      const own = ends.get(key)
      if (own) own.push([x, y])
      else ends.set(key, [[lon, lat], [x, y]])
    }
  }
  const apart = ([x0 = 0, y0 = 0]: Position, [x1 = 0, y1 = 0]: Position) => Math.hypot((x1 - x0) * Math.cos((y0 * Math.PI) / 180), y1 - y0)
  return [...ends.values()].map((points) => {
    const farthest = (from: Position) => points.reduce((best, p) => (apart(p, from) > apart(best, from) ? p : best), from)
    const end = farthest(points[0] ?? [])
    return lineString([end, farthest(end)], {})
  })
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

/** '2310', and with ', 230 kV' where that holds for all: '2310 + 2320' for several on the same structures, left to right. */
function lineLabel(riders: LineCircuit[]): { short: string; label: string } {
  const voltages = [...new Set(riders.map((c) => c.voltageKv))]
  const short = riders.map((c) => c.name).join(' + ')
  return { short, label: voltages.length === 1 && voltages[0] != null ? `${short}, ${voltages[0]} kV` : short }
}

export interface LineFeatures {
  /**
   * Properties circuit and lane; short and label where the run is named, and `outer` (-1 left, 1 right, looking ahead) where its name
   * belongs on the side away from the circuit beside it. On the centreline where circuits share their structures.
   */
  circuits: Feature<LineString>[]
  /** Feature id is the span's; properties circuit, lane, back, ahead. */
  spans: Feature<LineString>[]
  /** The same at their true offsets, with lanes only where an offset is not known. */
  trueCircuits: Feature<LineString>[]
  trueSpans: Feature<LineString>[]
  /** Crossarms at their true reach, of structures whose circuits hang beside the centreline. */
  arms: Feature<LineString>[]
  /** Property px20: width in px at zoom 20; one band for all circuits of a corridor. */
  rightOfWay: Feature<LineString>[]
}

const sameRiders = (a: number[], b: number[]) => a.length === b.length && a.every((id, i) => id === b[i])

export function lineFeatures(network: NetworkLines): LineFeatures {
  const shared = spanLanes(network.spans)
  const left = lanesLeft(network.spans)
  const conductor = conductors(network.spans)
  const riders = (span: LineSpan) => shared.get(span.id)?.riders ?? [span.circuitId]
  const lane = (span: LineSpan) => shared.get(span.id)?.lane ?? 0
  const trueLane = (span: LineSpan) => left.get(span.id)?.lane ?? 0
  const drawn = (span: LineSpan) => (riders(span).length > 1 ? span.lonLat : conductor(span))
  /** One circuit speaks for all on the same structures. */
  const speaks = (span: LineSpan) => riders(span).every((id) => id >= span.circuitId)
  const circuitOf = new Map(network.circuits.map((c) => [c.id, c]))
  const label = (ids: number[]) => lineLabel(ids.map((id) => circuitOf.get(id)).filter((c) => c !== undefined))
  const names = (span: LineSpan) => {
    // Two have an outer side each; of three or more one name speaks for all.
    if (riders(span).length === 2) return { ...label([span.circuitId]), outer: Math.sign(lane(span)) }
    return speaks(span) ? label(riders(span)) : {}
  }
  const widthM = (span: LineSpan) => Math.max(...riders(span).map((id) => usualRightOfWayM(circuitOf.get(id)?.voltageKv ?? null)))
  const spans = (lineOf: (span: LineSpan) => LonLat, laneOf: (span: LineSpan) => number) => network.spans.map((s) => (
    lineString(positions(lineOf(s)), { circuit: s.circuitId, lane: laneOf(s), back: s.structureBack, ahead: s.structureAhead }, s.id)))
  return {
    circuits: joinRuns(network.spans, drawn, (a, b) => lane(a) === lane(b) && sameRiders(riders(a), riders(b)))
      .map(({ first, coordinates }) => lineString(coordinates, { circuit: first.circuitId, lane: lane(first), ...names(first) })),
    spans: spans(drawn, lane),
    trueCircuits: joinRuns(network.spans, conductor, (a, b) => trueLane(a) === trueLane(b) && sameRiders(riders(a), riders(b)))
      .map(({ first, coordinates }) => lineString(coordinates, { circuit: first.circuitId, lane: trueLane(first), ...names(first) })),
    trueSpans: spans(conductor, trueLane),
    arms: arms(network.spans, conductor),
    rightOfWay: joinRuns(network.spans.filter(speaks), (s) => s.lonLat, (a, b) => widthM(a) === widthM(b))
      .map(({ first, coordinates }) => lineString(coordinates, { px20: pxAtZoom20(widthM(first), first.lonLat[1] ?? 0) })),
  }
}
