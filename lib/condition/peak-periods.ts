/** A daily peak-load period by the wall clock of the utility, 'HH:MM'; one that ends at or before it begins ends on the next day. */
export interface PeakPeriod { from: string; to: string }

/** The same on one day, ms since 1970 UTC; the end is no part of it. */
export interface PeakMoment { startMs: number; endMs: number }

/** Common practice, no source: afternoon and evening load in warm weather, which is what a failing splice feels. */
export const DEFAULT_PEAK_PERIODS: readonly PeakPeriod[] = [{ from: '14:00', to: '20:00' }]

const DAY_MS = 86_400_000
const MINUTE_MS = 60_000

/**
 * The peak-load period that runs now, and the next that begins. Of periods that overlap the one that began last is the current one.
 * @param toUtcMs the moment of a wall clock's reading, given as if it were UTC; days on which clocks change are its business
 * @param nowMs ms since 1970 UTC
 */
export function peakPeriodsAt(
  periods: readonly PeakPeriod[], toUtcMs: (wallMs: number) => number, nowMs: number,
): { current: PeakMoment | null; next: PeakMoment | null } {
  const today = Math.floor(nowMs / DAY_MS)
  // No zone is further than a day from UTC, and a period of yesterday may still run.
  const moments = periods.flatMap((period) => [-2, -1, 0, 1, 2, 3].map((day) => momentOf(period, (today + day) * DAY_MS, toUtcMs)))
    .sort((a, b) => a.startMs - b.startMs)
  return {
    current: moments.findLast(({ startMs, endMs }) => startMs <= nowMs && nowMs < endMs) ?? null,
    next: moments.find(({ startMs }) => startMs > nowMs) ?? null,
  }
}

function momentOf({ from, to }: PeakPeriod, dayMs: number, toUtcMs: (wallMs: number) => number): PeakMoment {
  const [fromMs, toMs] = [minutesOf(from) * MINUTE_MS, minutesOf(to) * MINUTE_MS]
  return { startMs: toUtcMs(dayMs + fromMs), endMs: toUtcMs(dayMs + toMs + (toMs <= fromMs ? DAY_MS : 0)) }
}

const minutesOf = (clock: string): number => {
  const [hours = NaN, minutes = NaN] = clock.split(':').map(Number)
  return hours * 60 + minutes
}
