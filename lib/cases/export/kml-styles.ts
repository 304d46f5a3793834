import type { ConditionClass } from '@/lib/condition'
import { element } from './xml'

/** What the legend draws for a class: its colour on a light ground, RRGGBB, and its shape by corners round the middle of a box of 24. */
interface Look { fill: string; outline: string; corners: readonly Corner[]; holes?: readonly (readonly Corner[])[]; dashes?: true }
type Corner = readonly [x: number, y: number]

const ring = (sides: number, radius: number, turnDeg = 0): Corner[] => Array.from({ length: sides }, (_, i): Corner => {
  const angle = ((turnDeg + (360 * i) / sides) * Math.PI) / 180
  return [radius * Math.sin(angle), radius * Math.cos(angle)]
})
const ROUND = 24
/** The wedge and the dot of the exclamation mark. */
const EXCLAMATION: Corner[][] = [[[-1.5, 6.4], [1.5, 6.4], [0.95, -1.3], [-0.95, -1.3]], ring(8, 1.65).map(([x, y]): Corner => [x, y - 4.75])]

/** The same marks as the legend's: sound dot, watch ring, degraded triangle, urgent diamond, critical octagon with !, unknown dashed circle. */
export const CLASS_LOOKS: Readonly<Record<ConditionClass, Look>> = {
  critical: { fill: '7f1d65', outline: '3d0a30', corners: ring(8, 11.4, 22.5), holes: EXCLAMATION },
  urgent: { fill: 'c02000', outline: '5f1000', corners: ring(4, 11) },
  degraded: { fill: '9c8b31', outline: '4f4610', corners: [[0, 8.8], [9.2, -7.4], [-9.2, -7.4]] },
  watch: { fill: '4a88c3', outline: '22486b', corners: ring(ROUND, 8.2), holes: [ring(ROUND, 4.2)] },
  sound: { fill: '707070', outline: '3d3d3d', corners: ring(ROUND, 6) },
  unknown: { fill: '6a6f74', outline: '3d4043', corners: ring(21, 7), dashes: true },
}

/** KML writes a colour as aabbggrr (OGC 07-147r2, 16.16). */
const colour = (rgb: string): string => `ff${rgb.slice(4, 6)}${rgb.slice(2, 4)}${rgb.slice(0, 2)}`.toLowerCase()

/** A style for each class. Its icon is the viewer's own, tinted: the file asks no other place for one. */
export const classStyles = (): string => Object.entries(CLASS_LOOKS).map(([cls, { fill, outline, dashes }]) => `<Style id="${cls}">`
  + `<IconStyle>${element('color', colour(fill))}${element('scale', '0.5')}</IconStyle><LabelStyle>${element('scale', '0.7')}</LabelStyle>`
  + `<LineStyle>${element('color', colour(dashes ? fill : outline))}${element('width', dashes ? '3' : '1.5')}</LineStyle>`
  + `<PolyStyle>${element('color', colour(fill))}</PolyStyle></Style>\n`).join('')

/** The box is as wide on the ground: shapes stand apart from their neighbours in a span, and are seen as soon as one looks at a span. */
const BOX_M = 36
const METRES_PER_DEGREE = 111_320

/** The point of a splice and its class's shape on the ground round it. */
export function classGeometry(cls: ConditionClass, lonDeg: number, latDeg: number): string {
  const { corners, holes = [], dashes } = CLASS_LOOKS[cls]
  const [scale, narrow] = [BOX_M / 24 / METRES_PER_DEGREE, Math.max(Math.cos((latDeg * Math.PI) / 180), 0.01)]
  const written = (at: readonly Corner[]) => element('coordinates', at.map(([x, y]) => `${(lonDeg + (x * scale) / narrow).toFixed(7)},${(latDeg + y * scale).toFixed(7)}`).join(' '))
  const closed = (at: readonly Corner[]) => `<LinearRing>${written([...at, ...at.slice(0, 1)])}</LinearRing>`
  const shape = dashes
    // Seven dashes of two sides each, with a gap of one after each.
    ? corners.flatMap((_, i) => (i % 3 === 0 ? [`<LineString><tessellate>1</tessellate>${written([0, 1, 2].map((step) => corners[(i + step) % corners.length] ?? [0, 0]))}</LineString>`] : [])).join('')
    : `<Polygon><tessellate>1</tessellate><outerBoundaryIs>${closed(corners)}</outerBoundaryIs>${holes.map((hole) => `<innerBoundaryIs>${closed(hole)}</innerBoundaryIs>`).join('')}</Polygon>`
  return `<MultiGeometry><Point>${element('coordinates', `${lonDeg.toFixed(7)},${latDeg.toFixed(7)}`)}</Point>${shape}</MultiGeometry>`
}
