import type { Feature, Point } from 'geojson'
import type { LineCrossing, LineSpan, NetworkLines } from '@/lib/store/tile-sources'
import { bearingDeg, placeKey } from './network-lines'

const point = (lon: number, lat: number, properties: Record<string, unknown>, id: number): Feature<Point> =>
  ({ type: 'Feature', id, geometry: { type: 'Point', coordinates: [lon, lat] }, properties })

interface LinesAtPlace { bearings: number[]; circuits: Set<number> }

/** Bearings of the lines before and after each structure, and whose they are, by its place. */
function linesByPlace(spans: LineSpan[]): Map<string, LinesAtPlace> {
  const places = new Map<string, LinesAtPlace>()
  for (const { lonLat, circuitId } of spans) {
    const add = (lon: number, lat: number, bearing: number) => {
      const key = placeKey(lon, lat)
      const place = places.get(key) ?? { bearings: [], circuits: new Set() }
      place.bearings.push(bearing)
      place.circuits.add(circuitId)
      places.set(key, place)
    }
    const n = lonLat.length
    const [ax = 0, ay = 0, bx = 0, by = 0] = lonLat
    const [cx = 0, cy = 0, dx = 0, dy = 0] = lonLat.slice(n - 4)
    add(ax, ay, bearingDeg(ax, ay, bx, by))
    add(dx, dy, bearingDeg(cx, cy, dx, dy))
  }
  return places
}

/** Mean of directions that count the same both ways (a line has no front): doubled angles on the circle. */
function meanAxisDeg(bearings: number[]): number {
  const doubled = bearings.map((b) => (b * Math.PI) / 90)
  const mean = Math.atan2(doubled.reduce((s, a) => s + Math.sin(a), 0), doubled.reduce((s, a) => s + Math.cos(a), 0))
  return Math.round((mean * 90) / Math.PI)
}

/**
 * Structures: feature id, label, type, angle = bearing of the line through it in degrees, which a crossarm stands square to, and how many
 * circuits it carries where that is more than one.
 */
export function structureFeatures(network: NetworkLines): Feature<Point>[] {
  const lines = linesByPlace(network.spans)
  return network.structures.map(({ id, label, lon, lat, type }) => {
    const through = lines.get(placeKey(lon, lat))
    const circuits = through && through.circuits.size > 1 ? through.circuits.size : undefined
    return point(lon, lat, { label, type, angle: through ? meanAxisDeg(through.bearings) : 0, circuits }, id)
  })
}

function crossingFeature(crossing: LineCrossing, spans: LineSpan[]): Feature<Point> | null {
  const span = spans.find((s) => crossing.lineDistanceM >= s.startM && crossing.lineDistanceM <= s.endM)
  if (!span) return null
  const { lonLat } = span
  const steps = lonLat.length / 2 - 1
  const lengths = Array.from({ length: steps }, (_, i) => {
    const [ax = 0, ay = 0, bx = 0, by = 0] = lonLat.slice(2 * i, 2 * i + 4)
    return Math.hypot((bx - ax) * Math.cos((ay * Math.PI) / 180), by - ay)
  })
  const whole = lengths.reduce((sum, l) => sum + l, 0)
  let left = span.endM > span.startM ? (whole * (crossing.lineDistanceM - span.startM)) / (span.endM - span.startM) : 0
  let i = 0
  while (i < steps - 1 && left > (lengths[i] ?? 0)) left -= lengths[i++] ?? 0
  const share = lengths[i] ? Math.min(1, left / (lengths[i] ?? 1)) : 0
  const [ax = 0, ay = 0, bx = 0, by = 0] = lonLat.slice(2 * i, 2 * i + 4)
  const { kind, name, circuitId: circuit } = crossing
  const properties = { kind, name, angle: Math.round(bearingDeg(ax, ay, bx, by)), circuit }
  return point(ax + share * (bx - ax), ay + share * (by - ay), properties, crossing.id)
}

/** About 100 m: circuits on shared structures name the same creek, each at its own line distance. */
const sameCrossing = ({ geometry: { coordinates: [lon = 0, lat = 0] }, properties }: Feature<Point>) =>
  [properties?.kind, properties?.name, lon.toFixed(3), lat.toFixed(3)].join()

/**
 * Crossings at their line distance along the circuit's first section that reaches so far, once for all circuits of a corridor; those
 * beyond every section are left out.
 */
export function crossingFeatures(network: NetworkLines): Feature<Point>[] {
  const byCircuit = new Map<number, LineSpan[]>()
  for (const span of network.spans) {
    const spans = byCircuit.get(span.circuitId)
    if (spans) spans.push(span)
    else byCircuit.set(span.circuitId, [span])
  }
  const placed = network.crossings.map((c) => crossingFeature(c, byCircuit.get(c.circuitId) ?? [])).filter((f) => f !== null)
  return [...new Map(placed.reverse().map((f) => [sameCrossing(f), f])).values()]
}
