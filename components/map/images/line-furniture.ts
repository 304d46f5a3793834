import type { Theme } from '../class-colours'
import { PALETTES } from '../style/palette'
import { drawn } from './canvas'

/** Strokes a figure twice: a casing of the ground's colour, then itself. */
function cased(g: CanvasRenderingContext2D, figure: Path2D, colour: string, casing: string, widthPx: number): void {
  g.lineCap = 'round'
  for (const [stroke, width] of [[casing, widthPx + 2], [colour, widthPx]] as const) {
    g.strokeStyle = stroke
    g.lineWidth = width
    g.stroke(figure)
  }
}

export interface StructureKind {
  /** The conductors end here: two arms. */
  end: boolean
  /** Carries several circuits: the arms reach over all of them. */
  wide: boolean
}

/** Seen from above with the line going up: a crossarm square to it. */
export function structureImage(theme: Theme, { end, wide }: StructureKind): ImageData {
  const { structure, halo } = PALETTES[theme]
  const reach = wide ? 11 : 6.5
  return drawn(28, 28, (g) => {
    const arms = end ? `M${-reach} -2.4H${reach}M${-reach} 2.4H${reach}` : `M${-reach} 0H${reach}`
    cased(g, new Path2D(arms), structure, halo, 1.5)
    const side = end ? 6.4 : 4.4
    g.fillStyle = halo
    g.fillRect(-side / 2 - 0.8, -side / 2 - 0.8, side + 1.6, side + 1.6)
    g.fillStyle = structure
    g.fillRect(-side / 2, -side / 2, side, side)
  })
}

/** What passes beneath, with the line going up: waves of water, edges of a road, a rail with its sleepers, a wire, a roof, open ground. */
const CROSSING_FIGURES: Record<string, string> = {
  river: [-2.6, 2.6].map((y) => `M-17 ${y}c2.8 -3 5.7 -3 8.5 0s5.7 3 8.5 0s5.7 -3 8.5 0s5.7 3 8.5 0`).join(''),
  road: 'M-16 -3H16M-16 3H16',
  rail: 'M-16 0H16M-13 -3.5V3.5M-6.5 -3.5V3.5M6.5 -3.5V3.5M13 -3.5V3.5',
  line: 'M-16 0H16M-12 -3L-6 3M6 -3L12 3',
  building: 'M-6 -6H6V6H-6ZM-6 -6L6 6',
  recreation: 'M-7 5L0 -6L7 5Z',
  other: 'M-10 0H-4M4 0H10',
}

export function crossingImage(theme: Theme, kind: string): ImageData {
  const { crossingWater, crossingWay, halo } = PALETTES[theme]
  const figure = new Path2D(CROSSING_FIGURES[kind] ?? CROSSING_FIGURES.other)
  return drawn(42, 42, (g) => cased(g, figure, kind === 'river' ? crossingWater : crossingWay, halo, kind === 'river' ? 1.7 : 1.4))
}

export function placeImage(theme: Theme): ImageData {
  const { town, halo } = PALETTES[theme]
  return drawn(9, 9, (g) => {
    for (const [r, colour] of [[3.4, halo], [2.2, town]] as const) {
      g.fillStyle = colour
      g.beginPath()
      g.arc(0, 0, r, 0, 2 * Math.PI)
      g.fill()
    }
  })
}

/** Four corners about a place that was looked for: of no class's shape, and open, so that what stands there is seen. */
export function foundImage(theme: Theme): ImageData {
  const { ink, paper } = PALETTES[theme]
  const corners = new Path2D([[-1, -1], [1, -1], [1, 1], [-1, 1]].map(([x = 0, y = 0]) => `M${13 * x} ${6 * y}V${13 * y}H${6 * x}`).join(''))
  return drawn(34, 34, (g) => cased(g, corners, ink, paper, 2))
}

/** Which way a track went, with its line going to the right. */
export function arrowImage(theme: Theme): ImageData {
  const { ink, paper } = PALETTES[theme]
  return drawn(14, 14, (g) => cased(g, new Path2D('M-2.6 -4L2.6 0L-2.6 4'), ink, paper, 1.7))
}
