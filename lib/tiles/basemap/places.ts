import type { Feature, Point } from 'geojson'
import type { City } from './sources'

/** Places that GeoNames counts as parts of another one, or as abandoned, historical or destroyed, would say a name twice or wrongly. */
const LEFT_OUT = new Set(['PPLX', 'PPLQ', 'PPLH', 'PPLW', 'PPLCH'])
const CAPITAL = 'PPLC'
/** Names closer than this never fit beside each other, in CSS px. */
const NAME_SPACING_PX = 72
const TILE_PX = 512

const mercatorX = (lonDeg: number) => (lonDeg + 180) / 360
const mercatorY = (latDeg: number) => 0.5 - Math.log(Math.tan(Math.PI / 4 + (latDeg * Math.PI) / 360)) / (2 * Math.PI)

/** Squares of the world as wide as the spacing at one zoom; a place may stand where no neighbouring square's place is too near. */
class Spacing {
  private readonly taken = new Map<number, [number, number][]>()
  private readonly cells: number
  constructor(zoom: number) {
    this.cells = (2 ** zoom * TILE_PX) / NAME_SPACING_PX
  }

  take(x: number, y: number): boolean {
    const u = x * this.cells
    const v = y * this.cells
    const column = Math.floor(u)
    const row = Math.floor(v)
    for (let c = column - 1; c <= column + 1; c++) {
      for (let r = row - 1; r <= row + 1; r++) {
        for (const [u2, v2] of this.taken.get(c * 1e6 + r) ?? []) if (Math.hypot(u - u2, v - v2) < 1) return false
      }
    }
    const key = column * 1e6 + row
    const here = this.taken.get(key)
    if (here) here.push([u, v])
    else this.taken.set(key, [[u, v]])
    return true
  }
}

/**
 * Populated places with the zoom from which each has room for its name beside larger ones. A threshold of population would leave
 * thinly settled land empty and crowd the rest; room makes both readable.
 * Property `from` is that zoom (fromZoom … toZoom + 1, where toZoom + 1 means only when zoomed further in), `pop` the population.
 */
export function placeFeatures(cities: City[], fromZoom: number, toZoom: number): Feature<Point>[] {
  const ranked = cities.filter((c) => !LEFT_OUT.has(c.featureCode))
    .map((city) => ({ city, weight: city.featureCode === CAPITAL ? city.population + 2_000_000 : city.population }))
    .sort((a, b) => b.weight - a.weight || (a.city.name < b.city.name ? -1 : 1))
  const grids = Array.from({ length: toZoom - fromZoom + 1 }, (_, i) => new Spacing(fromZoom + i))
  return ranked.map(({ city }) => {
    const [lon, lat] = city.loc.coordinates
    const x = mercatorX(lon)
    const y = mercatorY(lat)
    let from = toZoom + 1
    // From the nearest zoom outwards: who fits at one zoom need not fit at the next wider one.
    for (let i = grids.length - 1; i >= 0 && grids[i]?.take(x, y); i--) from = fromZoom + i
    const properties = { name: city.name, pop: city.population, from, ...(city.featureCode === CAPITAL ? { capital: 1 } : {}) }
    return { type: 'Feature', geometry: { type: 'Point', coordinates: [lon, lat] }, properties }
  })
}
