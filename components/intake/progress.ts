import type { ImportStatus } from '@/lib/contract/contract'

/** One look at running work. */
export interface Sample {
  atMs: number
  done: number
}

/** Keeps the looks of the last 20 seconds: older ones say nothing of the present rate. */
export function addSample(samples: readonly Sample[], next: Sample): Sample[] {
  const kept = samples.filter((s) => next.atMs - s.atMs <= 20_000 && s.done <= next.done)
  return [...kept, next]
}

/** Items per second over the kept looks; null until two looks lie at least half a second apart. */
export function ratePerS(samples: readonly Sample[]): number | null {
  const first = samples[0]
  const last = samples.at(-1)
  if (!first || !last || last.atMs - first.atMs < 500) return null
  const rate = (last.done - first.done) / ((last.atMs - first.atMs) / 1000)
  return rate > 0 ? rate : null
}

/** 'about 40 s left', 'about 3 min left'; null where nobody can know. */
export function timeLeft(done: number, total: number | null, rate: number | null): string | null {
  if (total === null || rate === null || total <= done) return null
  const seconds = (total - done) / rate
  if (seconds < 5) return 'a few seconds left'
  if (seconds < 90) return `about ${Math.round(seconds / 5) * 5} s left`
  if (seconds < 90 * 60) return `about ${Math.round(seconds / 60)} min left`
  return `about ${Math.round(seconds / 3600)} h left`
}

/** What the phase at hand counts: splices while they are assessed, else rows. */
export function progressOf(
  status: Pick<ImportStatus, 'phase' | 'rows_done' | 'rows_total' | 'splices_done' | 'splices_total'>,
): { done: number; total: number | null; of: 'rows' | 'splices' } {
  return status.phase === 'assessing'
    ? { done: status.splices_done, total: status.splices_total, of: 'splices' }
    : { done: status.rows_done, total: status.rows_total, of: 'rows' }
}
