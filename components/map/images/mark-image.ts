import type { ConditionClass } from '@/lib/condition/types'
import { CLASS_COLOURS, type Theme } from '../class-colours'
import { CLASS_SHAPES, PAST_SHAPES, SHAPE_BOX, type PastClass } from '../class-shapes'
import { PALETTES } from '../style/palette'
import { drawn } from './canvas'

const OUTLINE_PX = 1
const HALO_PX = 1.1
const MARGIN_PX = 3

/** Draws in the units of the shapes' box, `mapPx` wide on the map and with room around it for the halo; `scale` is px per unit. */
function inShapeBox(mapPx: number, draw: (g: CanvasRenderingContext2D, scale: number) => void): ImageData {
  const scale = mapPx / SHAPE_BOX
  const side = mapPx + 2 * MARGIN_PX
  return drawn(side, side, (g) => {
    g.scale(scale, scale)
    g.translate(-SHAPE_BOX / 2, -SHAPE_BOX / 2)
    draw(g, scale)
  })
}

/** A single splice: the class's shape with a dark outline, so that it reads over water, and a paper halo, so that neighbours part. */
export function markImage(theme: Theme, cls: ConditionClass): ImageData {
  const { path, hollow, sign, mapPx } = CLASS_SHAPES[cls]
  const { fill, outline, onFill } = CLASS_COLOURS[theme][cls]
  const { paper } = PALETTES[theme]
  return inShapeBox(mapPx, (g, scale) => {
    const shape = new Path2D(path)
    const stroke = (colour: string, widthPx: number) => {
      g.strokeStyle = colour
      g.lineWidth = widthPx / scale
      g.stroke(shape)
    }
    const body = (hollow?.width ?? 0) * scale
    stroke(paper, body + 2 * (OUTLINE_PX + HALO_PX))
    g.fillStyle = hollow ? paper : fill
    if (hollow?.dash) {
      g.fill(shape)
      g.setLineDash([...hollow.dash])
      stroke(fill, body)
    } else {
      stroke(outline, body + 2 * OUTLINE_PX)
      if (hollow) stroke(fill, body)
      g.fill(shape)
      if (hollow) stroke(fill, body)
    }
    if (sign) {
      g.fillStyle = onFill
      g.fill(new Path2D(sign))
    }
  })
}

/** The same where the class says how it was: outline and left half. */
export function pastMarkImage(theme: Theme, cls: PastClass): ImageData {
  const { outline, outlineWidth, half, halfWidth } = PAST_SHAPES[cls]
  const { fill, outline: dark } = CLASS_COLOURS[theme][cls]
  const { paper } = PALETTES[theme]
  const { mapPx } = CLASS_SHAPES[cls]
  return inShapeBox(mapPx, (g, scale) => {
    const whole = new Path2D(outline)
    const left = new Path2D(half)
    const stroke = (path: Path2D, colour: string, width: number) => {
      g.strokeStyle = colour
      g.lineWidth = width
      g.stroke(path)
    }
    stroke(whole, paper, outlineWidth + 2 * ((OUTLINE_PX + HALO_PX) / scale))
    g.fillStyle = paper
    g.fill(whole)
    stroke(whole, dark, outlineWidth)
    g.fillStyle = fill
    if (halfWidth === 0) g.fill(left)
    else stroke(left, fill, halfWidth)
  })
}
