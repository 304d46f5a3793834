import { scaleLinear } from 'd3-scale'
import type { UnitSystem } from '@/lib/units/format'
import { convert } from '@/lib/units/convert'

export const PLOT = { heightPx: 278, topPx: 26, bottomPx: 34, leftPx: 40, rightPx: 12 } as const

/** The scale ends in whole steps, so that it does not move with every move of a slider. */
const STEP_C = 25
const HOTTEST_SHOWN_C = 250

/** The temperature axis of a section: what is hotter than it ends stands on its upper edge and says so. */
export function temperatureRange(ambientC: number, hottestC: number, limitsC: readonly number[]): { fromC: number; toC: number } {
  const fromC = Math.floor(Math.min(ambientC, 25) / STEP_C) * STEP_C
  const highC = Math.max(...limitsC, Math.min(hottestC, HOTTEST_SHOWN_C)) + 5
  return { fromC, toC: Math.ceil(highC / STEP_C) * STEP_C }
}

export function temperatureScale({ fromC, toC }: { fromC: number; toC: number }) {
  return scaleLinear().domain([fromC, toC]).range([PLOT.heightPx - PLOT.bottomPx, PLOT.topPx]).clamp(true)
}

/** Ticks at round figures of the reader's own degrees. */
export function temperatureTicks({ fromC, toC }: { fromC: number; toC: number }, system: UnitSystem): { c: number; text: string }[] {
  if (system === 'metric') return scaleLinear().domain([fromC, toC]).ticks(6).map((c) => ({ c, text: String(c) }))
  return scaleLinear().domain([convert(fromC, 'c', 'f'), convert(toC, 'c', 'f')]).ticks(6).map((f) => ({ c: convert(f, 'f', 'c'), text: String(f) }))
}

export const distanceScale = (lengthM: number, widthPx: number) =>
  scaleLinear().domain([0, Math.max(1, lengthM)]).range([PLOT.leftPx, Math.max(PLOT.leftPx + 1, widthPx - PLOT.rightPx)])

/** Ticks along the line in the reader's km or miles. */
export function distanceTicks(lengthM: number, widthPx: number, system: UnitSystem): { m: number; text: string }[] {
  const unit = system === 'us' ? 'mi' : 'km'
  const count = Math.max(2, Math.floor(widthPx / 90))
  return scaleLinear().domain([0, convert(lengthM, 'm', unit)]).ticks(count).map((far) => ({ m: convert(far, unit, 'm'), text: `${far}` }))
}

/** Names of structures that fit side by side, evenly chosen. */
export function namedStructures<T extends { line_distance_m: number; structure: string }>(structures: readonly T[], x: (m: number) => number, apartPx = 56): T[] {
  const shown: T[] = []
  let endPx = -Infinity
  for (const one of structures) {
    const atPx = x(one.line_distance_m)
    if (atPx - endPx < apartPx) continue
    shown.push(one)
    endPx = atPx
  }
  return shown
}

export interface LineLabel { key: string; yPx: number; text: string }

/** Labels of lines across a plot: those of lines that lie nearer than a label is high are one label above the uppermost, so that no line strikes one through. */
export function labelGroups(labels: readonly LineLabel[], leastPx: number): { yPx: number; labels: LineLabel[] }[] {
  const groups: { yPx: number; labels: LineLabel[] }[] = []
  for (const label of [...labels].sort((a, b) => a.yPx - b.yPx)) {
    const above = groups.at(-1)
    if (above && label.yPx - (above.labels.at(-1)?.yPx ?? above.yPx) < leastPx) above.labels.push(label)
    else groups.push({ yPx: label.yPx, labels: [label] })
  }
  return groups
}
