import type { Feature, Position } from 'geojson'

/** One round of corner cutting (Chaikin 1974): each corner gives way to two points a quarter along its sides. */
function cutCorners(line: Position[], closed: boolean): Position[] {
  const out: Position[] = closed ? [] : line.slice(0, 1)
  for (let i = 0; i + 1 < line.length; i++) {
    const [x0 = 0, y0 = 0] = line[i] ?? []
    const [x1 = 0, y1 = 0] = line[i + 1] ?? []
    out.push([0.75 * x0 + 0.25 * x1, 0.75 * y0 + 0.25 * y1], [0.25 * x0 + 0.75 * x1, 0.25 * y0 + 0.75 * y1])
  }
  return [...out, ...(closed ? out.slice(0, 1) : line.slice(-1))]
}

const smoothLine = (line: Position[], closed: boolean): Position[] => cutCorners(cutCorners(line, closed), closed)

/** Coarse shapes of water without their corners: their sources hold one point every few kilometres, and water has no corners. */
export function smoothWater(feature: Feature): Feature {
  const { geometry } = feature
  if (geometry.type === 'LineString') return { ...feature, geometry: { ...geometry, coordinates: smoothLine(geometry.coordinates, false) } }
  if (geometry.type !== 'Polygon') return feature
  return { ...feature, geometry: { ...geometry, coordinates: geometry.coordinates.map((ring) => smoothLine(ring, true)) } }
}
