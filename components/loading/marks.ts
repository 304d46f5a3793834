import type { ConditionClass } from '@/lib/condition/types'

/** The shapes of the classes as relative paths about a point, so that thousands of them are one path of one element. Half widths in px. */
const HALF: Record<Exclude<ConditionClass, 'sound'>, number> = { watch: 3.2, degraded: 5, urgent: 5.4, critical: 6.4, unknown: 3.4 }

const round = (value: number): number => Math.round(value * 10) / 10

const circle = (r: number): string => `m${-r} 0a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`

const polygon = (sides: number, r: number, turnDeg: number): string => {
  const corners = Array.from({ length: sides }, (_, i) => {
    const angle = ((turnDeg + (360 * i) / sides) * Math.PI) / 180
    return [round(r * Math.sin(angle)), round(-r * Math.cos(angle))] as const
  })
  let [atX, atY] = [0, 0]
  const steps = corners.map(([x, y]) => {
    const step = `${round(x - atX)} ${round(y - atY)}`
    atX = x
    atY = y
    return step
  })
  return `m${steps[0]}l${steps.slice(1).join(' ')}z`
}

/** The sound are nearly all there are: a line without length whose round caps make the dot, since two arcs for each cost a moving slider its frame. */
const DOT = 'h0'

const SHAPES: Record<ConditionClass, string> = {
  sound: DOT, watch: circle(HALF.watch), degraded: polygon(3, HALF.degraded, 0), urgent: polygon(4, HALF.urgent, 0),
  critical: polygon(8, HALF.critical, 22.5), unknown: circle(HALF.unknown),
}

/** The exclamation mark on the octagon. */
const SIGN = 'm-.8 -4h1.6l-.3 4.4h-1zM'

/** An arrow stands clear of a mark that lies on the upper edge itself. */
const ARROW_PX = 12

export interface PlotPoint {
  class: ConditionClass
  x: number
  y: number
  /** Where the whisker ends: at the ratio it is believed to lie under. */
  upperY: number
  /** Hotter than the axis: an arrow ends the whisker. */
  beyond: boolean
  /** No ratio: nothing says where it lies, so it has a hatched whisker up to the bound and no mark. */
  unread: boolean
}

export interface PlotPaths {
  marks: Record<ConditionClass, string>
  signs: string
  /** From mark to upper bound, of what is worse than sound, of the sound, and of those without a ratio. */
  whiskers: string
  faint: string
  hatched: string
}

/** Everything of a line in a handful of paths. */
export function plotPaths(points: readonly PlotPoint[]): PlotPaths {
  const marks: Record<ConditionClass, string> = { sound: '', watch: '', degraded: '', urgent: '', critical: '', unknown: '' }
  let [signs, whiskers, faint, hatched] = ['', '', '', '']
  for (const { class: condition, x, y, upperY, beyond, unread } of points) {
    const [atX, atY] = [round(x), round(y)]
    if (unread) {
      hatched += `M${atX} ${round(y)}V${round(upperY)}m-3 0h6`
      continue
    }
    marks[condition] += `M${atX} ${atY}${SHAPES[condition]}`
    if (condition === 'critical') signs += `M${atX} ${atY}${SIGN}${round(atX - 0.8)} ${round(atY + 2)}h1.6v1.6h-1.6z`
    if (upperY >= y && !beyond) continue
    const line = `M${atX} ${atY}V${round(upperY - (beyond ? ARROW_PX : 0))}${beyond ? 'm-3 5l3 -5l3 5' : 'm-2 0h4'}`
    if (condition === 'sound') faint += line
    else whiskers += line
  }
  return { marks, signs, whiskers, faint, hatched }
}
