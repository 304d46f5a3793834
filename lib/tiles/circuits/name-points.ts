import type { Feature, LineString, Point, Position } from 'geojson'
import { bearingDeg } from './network-lines'

/** A run of this length in CSS px is named once; more names follow where they stand so far apart. */
const ONE_NAME_PX = 150
const SPACING_PX = 480
const PX_PER_DEGREE_AT_ZOOM_0 = 512 / 360
const MAX_HALVINGS = 9

const cosOf = (latDeg: number) => Math.cos((latDeg * Math.PI) / 180)
/** Length of a step in degrees of longitude at the step's latitude: what Web Mercator draws in proportion. */
const stepLength = ([x0 = 0, y0 = 0]: Position, [x1 = 0, y1 = 0]: Position) => Math.hypot(x1 - x0, (y1 - y0) / cosOf((y0 + y1) / 2))

function alongLine(line: Position[], share: number): { lon: number; lat: number; angle: number } {
  const steps = line.slice(1).map((to, i) => stepLength(line[i] ?? to, to))
  let left = share * steps.reduce((sum, s) => sum + s, 0)
  let i = 0
  while (i < steps.length - 1 && left > (steps[i] ?? 0)) left -= steps[i++] ?? 0
  const [x0 = 0, y0 = 0] = line[i] ?? []
  const [x1 = 0, y1 = 0] = line[i + 1] ?? []
  const t = steps[i] ? left / (steps[i] ?? 1) : 0
  return { lon: x0 + t * (x1 - x0), lat: y0 + t * (y1 - y0), angle: Math.round(bearingDeg(x0, y0, x1, y1)) }
}

/**
 * Where the names of lines may stand: the middle of each run first, then the middles of its halves, and so on. `from` is the zoom from
 * which there is room for that many. Points rather than text along the line, so that a name can step aside from what lies on the line.
 */
export function namePoints(circuits: Feature<LineString>[], toZoom: number): Feature<Point>[] {
  return circuits.filter((f) => f.properties?.label).flatMap((f): Feature<Point>[] => {
    const line = f.geometry.coordinates
    const length = line.slice(1).reduce((sum, to, i) => sum + stepLength(line[i] ?? to, to), 0)
    const zoomFor = (px: number) => Math.log2(px / Math.max(1e-9, length * PX_PER_DEGREE_AT_ZOOM_0))
    const points: Feature<Point>[] = []
    for (let halving = 0; halving < MAX_HALVINGS; halving++) {
      // Renderers compare with the tile's whole zoom.
      const from = Math.max(0, Math.ceil(zoomFor(halving === 0 ? ONE_NAME_PX : SPACING_PX * 2 ** (halving + 1))))
      if (from > toZoom) break
      for (let odd = 1; odd < 2 ** (halving + 1); odd += 2) {
        const { lon, lat, angle } = alongLine(line, odd / 2 ** (halving + 1))
        const { outer, ...rest } = f.properties ?? {}
        const out = outer ? (angle + 90 * Number(outer) + 360) % 360 : undefined
        points.push({ type: 'Feature', geometry: { type: 'Point', coordinates: [lon, lat] }, properties: { ...rest, from, angle, out } })
      }
    }
    return points
  })
}
