import type { ConditionClass } from '@/lib/condition/types'

/** Side of the square that shapes are drawn in. */
export const SHAPE_BOX = 24

export interface ClassShape {
  /** SVG path in the box. */
  path: string
  /** Filled with the class colour, or a hollow line of this width in box units. */
  hollow?: { width: number; dash?: readonly [number, number] }
  /** Drawn on the fill, in the colour for that. */
  sign?: string
  /** Side of the box on a map, CSS px: marks grow with the class. */
  mapPx: number
}

const circle = (r: number) => `M${12 - r} 12a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0Z`

function polygon(sides: number, r: number, turnDeg: number): string {
  const corners = Array.from({ length: sides }, (_, i) => {
    const angle = ((turnDeg + (360 * i) / sides) * Math.PI) / 180
    return `${(12 + r * Math.sin(angle)).toFixed(2)} ${(12 - r * Math.cos(angle)).toFixed(2)}`
  })
  return `M${corners.join('L')}Z`
}

/** The exclamation mark: a wedge and a dot. */
const EXCLAMATION = 'M10.5 5.6h3l-.55 7.7h-1.9ZM12 15.1a1.65 1.65 0 1 1 0 3.3a1.65 1.65 0 1 1 0 -3.3Z'

/** Sound dot, watch ring, degraded triangle, urgent diamond, critical octagon with !, unknown hollow dashed circle. */
export const CLASS_SHAPES: Record<ConditionClass, ClassShape> = {
  sound: { path: circle(6), mapPx: 16 },
  watch: { path: circle(6.2), hollow: { width: 4 }, mapPx: 17 },
  degraded: { path: 'M12 3.2L21.2 19.4H2.8Z', mapPx: 19 },
  urgent: { path: polygon(4, 11, 0), mapPx: 20 },
  critical: { path: polygon(8, 11.4, 22.5), sign: EXCLAMATION, mapPx: 22 },
  unknown: { path: circle(7), hollow: { width: 2, dash: [3.9, 2.383] }, mapPx: 16 },
}

/**
 * What was sound or watch and is past its re-measure: the outline of its shape, of which only the left half is still filled, so that it looks
 * neither like one read in time nor like one of which nothing is known.
 */
export const PAST_SHAPES = {
  sound: { outline: circle(6.2), outlineWidth: 1.8, half: 'M12 5.8a6.2 6.2 0 0 0 0 12.4Z', halfWidth: 0 },
  watch: { outline: circle(6.8), outlineWidth: 1.8, half: 'M12 5.2a6.8 6.8 0 0 0 0 13.6', halfWidth: 4 },
} as const

export type PastClass = keyof typeof PAST_SHAPES
export const isPastClass = (cls: ConditionClass): cls is PastClass => cls in PAST_SHAPES
