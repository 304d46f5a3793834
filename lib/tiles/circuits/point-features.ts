import type { Feature, Point } from 'geojson'
import type { LineCrossing, LineSpan, NetworkLines } from '@/lib/store/tile-sources'
import { bearingDeg } from './network-lines'

const point = (lon: number, lat: number, properties: Record<string, unknown>, id: number): Feature<Point> =>
  ({ type: 'Feature', id, geometry: { type: 'Point', coordinates: [lon, lat] }, properties })

/** Bearings of the line before and after each structure, by its place. */
function bearingsByPlace(spans: LineSpan[]): Map<string, number[]> {
  const bearings = new Map<string, number[]>()
  const add = (lon: number, lat: number, bearing: number) => {
    const key = `${lon.toFixed(5)},${lat.toFixed(5)}`
    bearings.set(key, [...(bearings.get(key) ?? []), bearing])
  }
  for (const { lonLat } of spans) {
    const n = lonLat.length
    const [ax = 0, ay = 0, bx = 0, by = 0] = lonLat
    const [cx = 0, cy = 0, dx = 0, dy = 0] = lonLat.slice(n - 4)
    add(ax, ay, bearingDeg(ax, ay, bx, by))
    add(dx, dy, bearingDeg(cx, cy, dx, dy))
  }
  return bearings
}

/** Mean of directions that count the same both ways (a line has no front): doubled angles on the circle. */
function meanAxisDeg(bearings: number[]): number {
  const doubled = bearings.map((b) => (b * Math.PI) / 90)
  const mean = Math.atan2(doubled.reduce((s, a) => s + Math.sin(a), 0), doubled.reduce((s, a) => s + Math.cos(a), 0))
  return Math.round((mean * 90) / Math.PI)
}

/** Structures: feature id, label, type, angle = bearing of the line through it in degrees, which a crossarm stands square to. */
export function structureFeatures(network: NetworkLines): Feature<Point>[] {
  const bearings = bearingsByPlace(network.spans)
  return network.structures.map(({ id, label, lon, lat, type }) => {
    const through = bearings.get(`${lon.toFixed(5)},${lat.toFixed(5)}`)
    return point(lon, lat, { label, type, angle: through ? meanAxisDeg(through) : 0 }, id)
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

/** Crossings at their line distance along the circuit's first section that reaches so far; those beyond every section are left out. */
export function crossingFeatures(network: NetworkLines): Feature<Point>[] {
  const byCircuit = new Map<number, LineSpan[]>()
  for (const span of network.spans) {
    const spans = byCircuit.get(span.circuitId)
    if (spans) spans.push(span)
    else byCircuit.set(span.circuitId, [span])
  }
  return network.crossings.map((c) => crossingFeature(c, byCircuit.get(c.circuitId) ?? [])).filter((f) => f !== null)
}
