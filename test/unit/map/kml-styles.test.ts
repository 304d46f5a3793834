import { describe, expect, it } from 'vitest'
import { CLASS_COLOURS, WORST_FIRST } from '@/components/map/class-colours'
import { CLASS_SHAPES } from '@/components/map/class-shapes'
import { CLASS_LOOKS, classGeometry, classStyles } from '@/lib/cases/export/kml-styles'

const radii = (corners: readonly (readonly [number, number])[]) => corners.map(([x, y]) => Math.hypot(x, y))

describe('the marks of a KML file', () => {
  it('have the colours of the legend on a light ground, as KML writes them: aabbggrr (OGC 07-147r2, kml:color)', () => {
    for (const cls of WORST_FIRST) {
      const { fill, outline } = CLASS_COLOURS.light[cls]
      expect([`#${CLASS_LOOKS[cls].fill}`, `#${CLASS_LOOKS[cls].outline}`], cls).toEqual([fill, outline])
      const [red, green, blue] = [fill.slice(1, 3), fill.slice(3, 5), fill.slice(5, 7)]
      expect(classStyles()).toContain(`<Style id="${cls}"><IconStyle><color>ff${blue}${green}${red}</color>`)
    }
  })

  it('have its shapes: the corners of its polygons, the rings of its circles', () => {
    for (const cls of WORST_FIRST) {
      const { path, hollow } = CLASS_SHAPES[cls]
      const { corners, holes = [], dashes } = CLASS_LOOKS[cls]
      const circle = /a([\d.]+) /.exec(path)
      if (!circle) {
        const drawn = path.slice(1, -1).split(/[LHV]/).map((at) => at.split(' ').map(Number))
        drawn.forEach(([x = NaN, y], i) => {
          expect(corners[i]?.[0], `${cls} ${i}`).toBeCloseTo(x - 12, 1)
          if (y !== undefined) expect(corners[i]?.[1], `${cls} ${i}`).toBeCloseTo(12 - y, 1)
        })
        continue
      }
      const [r, width] = [Number(circle[1]), hollow?.dash ? 0 : hollow?.width ?? 0]
      for (const radius of radii(corners)) expect(radius, cls).toBeCloseTo(r + width / 2, 6)
      if (width > 0) for (const radius of radii(holes[0] ?? [])) expect(radius, cls).toBeCloseTo(r - width / 2, 6)
      expect(dashes ?? false, cls).toBe(hollow?.dash !== undefined)
      if (hollow?.dash) expect(classGeometry(cls, 0, 0).match(/<LineString>/g)).toHaveLength(Math.round((2 * Math.PI * r) / (hollow.dash[0] + hollow.dash[1])))
    }
  })

  it('keep their form away from the equator: as wide as high on the ground', () => {
    const [lonDeg, latDeg] = [-114, 60]
    const ring = /<outerBoundaryIs>.*?<coordinates>(.*?)<\/coordinates>/.exec(classGeometry('urgent', lonDeg, latDeg))?.[1] ?? ''
    const places = ring.split(' ').map((at) => at.split(',').map(Number))
    const spread = (i: 0 | 1) => Math.max(...places.map((at) => at[i] ?? NaN)) - Math.min(...places.map((at) => at[i] ?? NaN))
    expect(spread(0) * Math.cos((latDeg * Math.PI) / 180)).toBeCloseTo(spread(1), 6)
  })
})
