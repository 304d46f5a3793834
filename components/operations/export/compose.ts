import { CLASS_WORD, WORST_FIRST, type Theme } from '@/components/map/class-colours'
import { PIXEL_RATIO } from '@/components/map/images/canvas'
import { markImage } from '@/components/map/images/mark-image'
import type { MapPicture } from '@/components/map/map-picture'
import { PALETTES } from '@/components/map/style/palette'
import type { ClassCounts } from '@/lib/contract/contract'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { formatNumber, type UnitSystem } from '@/lib/units/format'
import { scaleBar } from './scale-bar'
import type { StripPicture } from './strip-image'

export interface PictureParts {
  map: MapPicture | null
  strip: StripPicture | null
  theme: Theme
  system: UnitSystem
  /** How it is to be handled. */
  mark: string
  title: string
  /** As of when, of what filter, and what that hides. */
  lines: readonly string[]
  counts: ClassCounts | null
  /** What the filter lets through; absent: all. */
  filter: SpliceFilter
  /** At the foot, where the decision is made. */
  caution: string
}

const LEAST_PX = 640
const EDGE_PX = 20
const LINE_PX = 19
const SCALE_PX = 120
const FONT = '"Public Sans Variable", "Noto Sans", system-ui, sans-serif'
/** What is drawn is read on a phone too. */
const SHARP = 2

/** Map above, strip below, between them what the marks mean: a sheet that says as of when it is and how it is to be handled. */
export function composePicture(parts: PictureParts): HTMLCanvasElement {
  const { map, strip, theme } = parts
  const innerPx = Math.max(LEAST_PX, map?.widthPx ?? 0, strip?.widthPx ?? 0)
  const pen = new Pen(innerPx, PALETTES[theme].ink, PALETTES[theme].paper)
  pen.text(parts.mark, 13, 700)
  pen.text(parts.title, 20, 700)
  for (const line of parts.lines) pen.text(line, 13, 400)
  pen.skip(6)
  if (map) {
    pen.draw(map.heightPx, (g, y) => {
      g.drawImage(map.canvas, EDGE_PX, y, map.widthPx, map.heightPx)
      drawScale(g, map, parts, y)
    })
    if (map.attribution) pen.text(map.attribution, 11, 400)
    if (map.says) pen.text(map.says, 13, 600)
  } else {
    pen.text('The map is not in this picture: this browser draws none.', 13, 600)
  }
  pen.skip(4)
  drawLegend(pen, parts)
  pen.skip(4)
  if (strip) {
    // The strip straightens a line whole: what the filter takes from the map it keeps.
    pen.text(filterToQuery(parts.filter) === '' ? strip.name : `${strip.name}, every splice of it whatever the filter`, 13, 700)
    pen.draw(strip.heightPx, (g, y) => g.drawImage(strip.image, EDGE_PX, y, strip.widthPx, strip.heightPx))
  } else {
    pen.text('The strip is not in this picture: no circuit is straightened.', 13, 600)
  }
  pen.text(parts.caution, 12, 400)
  return pen.done()
}

/** Everything is laid out before anything is drawn, since only then is it known how high the picture is. */
class Pen {
  private yPx = EDGE_PX
  private readonly acts: ((g: CanvasRenderingContext2D) => void)[] = []
  private readonly measure = document.createElement('canvas').getContext('2d')

  constructor(readonly innerPx: number, readonly ink: string, readonly paper: string) {}

  skip(px: number): void {
    this.yPx += px
  }

  draw(heightPx: number, act: (g: CanvasRenderingContext2D, yPx: number) => void): void {
    const y = this.yPx
    this.acts.push((g) => act(g, y))
    this.yPx += heightPx + 6
  }

  widthOf(text: string, sizePx: number, weight: number): number {
    if (!this.measure) return 0
    this.measure.font = `${weight} ${sizePx}px ${FONT}`
    return this.measure.measureText(text).width
  }

  /** Text over as many lines as it takes. */
  text(text: string, sizePx: number, weight: number): void {
    const lines = ['']
    for (const word of text.split(' ')) {
      const longer = `${lines.at(-1)} ${word}`.trim()
      if (this.widthOf(longer, sizePx, weight) <= this.innerPx) lines[lines.length - 1] = longer
      else lines.push(word)
    }
    for (const line of lines) this.draw(Math.max(LINE_PX, sizePx * 1.3) - 6, (g, y) => this.write(g, line, EDGE_PX, y + sizePx, sizePx, weight))
  }

  write(g: CanvasRenderingContext2D, text: string, x: number, y: number, sizePx: number, weight: number): void {
    g.font = `${weight} ${sizePx}px ${FONT}`
    g.fillStyle = this.ink
    g.fillText(text, x, y)
  }

  done(): HTMLCanvasElement {
    const canvas = document.createElement('canvas')
    const [widthPx, heightPx] = [this.innerPx + 2 * EDGE_PX, this.yPx + EDGE_PX]
    canvas.width = Math.round(widthPx * SHARP)
    canvas.height = Math.round(heightPx * SHARP)
    const g = canvas.getContext('2d')
    if (!g) throw new Error('This browser gives no 2D canvas, so no picture can be made.')
    g.scale(SHARP, SHARP)
    g.fillStyle = this.paper
    g.fillRect(0, 0, widthPx, heightPx)
    for (const act of this.acts) act(g)
    return canvas
  }
}

/** A bar on paper in the corner of the map. */
function drawScale(g: CanvasRenderingContext2D, map: MapPicture, { theme, system }: PictureParts, yPx: number): void {
  const bar = scaleBar(map.metresPerPx, system, SCALE_PX)
  const { ink, paper } = PALETTES[theme]
  const [right, bottom] = [EDGE_PX + map.widthPx - 10, yPx + map.heightPx - 10]
  g.fillStyle = paper
  g.fillRect(right - bar.widthPx - 12, bottom - 26, bar.widthPx + 12, 26)
  g.strokeStyle = ink
  g.lineWidth = 1.5
  g.beginPath()
  g.moveTo(right - bar.widthPx - 6, bottom - 12)
  g.lineTo(right - bar.widthPx - 6, bottom - 6)
  g.lineTo(right - 6, bottom - 6)
  g.lineTo(right - 6, bottom - 12)
  g.stroke()
  g.font = `400 12px ${FONT}`
  g.fillStyle = ink
  g.fillText(bar.text, right - bar.widthPx - 1, bottom - 11)
}

/** Shape, word and number of each class, in as many rows as they take; a class that the filter takes out has no number, since nobody counted it. */
function drawLegend(pen: Pen, { theme, counts, filter }: PictureParts): void {
  const items = WORST_FIRST.map((cls) => ({ cls, text: counts && (filter.classes?.includes(cls) ?? true) ? `${CLASS_WORD[cls]} ${formatNumber(counts[cls], 0)}` : CLASS_WORD[cls] }))
  const rows: { at: number; items: { x: number; cls: (typeof items)[number]['cls']; text: string }[] }[] = [{ at: 0, items: [] }]
  for (const item of items) {
    const widthPx = 26 + pen.widthOf(item.text, 13, 500) + 18
    let row = rows.at(-1)!
    if (row.at + widthPx > pen.innerPx) {
      row = { at: 0, items: [] }
      rows.push(row)
    }
    row.items.push({ x: EDGE_PX + row.at, ...item })
    row.at += widthPx
  }
  for (const row of rows) {
    pen.draw(22, (g, y) => {
      for (const { x, cls, text } of row.items) {
        const mark = imageOf(markImage(theme, cls))
        const [w, h] = [mark.width / PIXEL_RATIO, mark.height / PIXEL_RATIO]
        g.drawImage(mark, x + 11 - w / 2, y + 11 - h / 2, w, h)
        pen.write(g, text, x + 26, y + 16, 13, 500)
      }
    })
  }
}

/** Raw pixels take no scale; a canvas of them does. */
function imageOf(data: ImageData): HTMLCanvasElement {
  const canvas = document.createElement('canvas')
  canvas.width = data.width
  canvas.height = data.height
  canvas.getContext('2d')?.putImageData(data, 0, 0)
  return canvas
}
