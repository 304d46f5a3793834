import { scaleUtc } from 'd3-scale'
import type { ReadingJson } from '@/lib/contract/contract'
import { formatDate, formatMonth } from '@/lib/units/time'
import type { StoredAssessment } from './assessment'
import { ratioPoints } from './reading-figures'

/** A side at one visit. Without a range it is as it was read, from before the repair or too long ago for the assessment. */
export interface TrendPoint {
  side: 'A' | 'B'
  atMs: number
  ratio: number
  /** Where the true ratio lies nine times in ten, by the instrument's limit of error. */
  range: [low: number, high: number] | null
  /** Whether anybody noted which structure the side faces: else it is joined to no other. */
  declared: boolean
}

const NINE_IN_TEN = 1.645

/** What the engine made of each visit, and beside it the readings that it no longer counts, as read; oldest first. */
export function trendPoints(readings: readonly ReadingJson[], visits: StoredAssessment['visits']): TrendPoint[] {
  const judged = new Set(visits.flatMap((v) => v.readingIds.map(String)))
  const declaredIn = new Map(readings.map((r) => [r.id, Boolean(r.fields.structure_back ?? r.fields.structure_ahead)]))
  const asRead = ratioPoints(readings.filter((r) => !judged.has(String(r.id)))).map(({ side, atMs, ratio, readingId }): TrendPoint =>
    ({ side, atMs, ratio, range: null, declared: declaredIn.get(readingId) ?? false }))
  const asJudged = visits.flatMap(({ takenAtMs, sides }) => takenAtMs === undefined ? [] : sides.map(
    ({ side, ratio, uRatio, sidesDeclared }): TrendPoint => {
      const factor = Math.exp((NINE_IN_TEN * uRatio) / ratio)
      return { side, atMs: takenAtMs, ratio, range: [ratio / factor, ratio * factor], declared: sidesDeclared }
    }))
  return [...asRead, ...asJudged].sort((a, b) => a.atMs - b.atMs)
}

/** When each run of readings after a repair begins. */
export function repairsOf(readings: readonly ReadingJson[]): number[] {
  const dated = readings.filter((r) => r.taken_at !== null).map((r) => ({ atMs: Date.parse(r.taken_at ?? ''), after: r.fields.after_repair === true }))
  dated.sort((a, b) => a.atMs - b.atMs)
  return dated.filter((r, i) => r.after && dated[i - 1]?.after !== true).map(({ atMs }) => atMs)
}

/** Pairs of points of one side that may be joined: both declared, and no repair between them. */
export function joined(points: readonly TrendPoint[], repairsMs: readonly number[]): [TrendPoint, TrendPoint][] {
  return (['A', 'B'] as const).flatMap((side) => {
    const of = points.filter((p) => p.side === side)
    return of.slice(1).flatMap((to, i): [TrendPoint, TrendPoint][] => {
      const from = of[i]
      if (!from?.declared || !to.declared || from.atMs === to.atMs) return []
      return repairsMs.some((at) => from.atMs < at && at <= to.atMs) ? [] : [[from, to]]
    })
  })
}

const DAY_MS = 86_400_000
const TICKS = 4
/** Per cent of the width that the longest date takes in the narrowest panel. */
const LEAST_GAP = 30

/** Readings within so many days of each other are told apart by their days. */
const DAYS_APART = 60

/**
 * A true time axis in per cent of the width: the ticks stand where years or months begin, and within two months on the days of the readings
 * themselves, the last first.
 * @param readAtMs when each reading was taken
 */
export function timeScale(firstMs: number, lastMs: number, readAtMs: readonly number[], timeZone: string) {
  const padMs = Math.max((lastMs - firstMs) * 0.06, DAY_MS / 2)
  const scale = scaleUtc().domain([firstMs - padMs, lastMs + padMs]).range([0, 100])
  const days = (lastMs - firstMs) / DAY_MS
  const ticks: { atPercent: number; text: string }[] = []
  if (days <= DAYS_APART) {
    for (const atMs of readAtMs.toSorted((a, b) => b - a)) {
      const atPercent = scale(atMs)
      if (ticks.every((other) => other.atPercent - atPercent >= LEAST_GAP)) ticks.unshift({ atPercent, text: formatDate(atMs, timeZone) })
    }
    return { percent: (atMs: number): number => scale(atMs), ticks }
  }
  for (const tick of scale.ticks(TICKS)) {
    const [atPercent, text] = [scale(tick), tickText(tick, days)]
    const last = ticks.at(-1)
    if (atPercent < 4 || atPercent > 96 || last?.text === text || (last && atPercent - last.atPercent < LEAST_GAP)) continue
    ticks.push({ atPercent, text })
  }
  return { percent: (atMs: number): number => scale(atMs), ticks }
}

function tickText(tick: Date, days: number): string {
  if (days > 800) return String(tick.getUTCFullYear())
  return formatMonth(tick.getTime(), 'UTC')
}

/** Labels in a column, pushed apart so that none stands nearer than `leastPx` to the one above it. */
export function apart<T extends { yPx: number }>(labels: readonly T[], leastPx: number): T[] {
  let abovePx = -Infinity
  return [...labels].sort((a, b) => a.yPx - b.yPx).map((label) => {
    const yPx = Math.max(label.yPx, abovePx + leastPx)
    abovePx = yPx
    return { ...label, yPx }
  })
}
