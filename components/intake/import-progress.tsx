'use client'
import { useState } from 'react'
import { Progress } from '@/components/ui/states'
import type { ImportStatus } from '@/lib/contract/contract'
import { addSample, ratePerS, timeLeft, type Sample } from './progress'
import { count, stateWords } from './words'

/** Rows per second over the last looks; begins anew with every phase. */
function useRate(done: number, phase: string | null, seenAtMs: number): number | null {
  const [seen, setSeen] = useState<{ phase: string | null; samples: Sample[] }>({ phase, samples: [] })
  const last = seen.samples.at(-1)
  if (seen.phase !== phase) setSeen({ phase, samples: [{ atMs: seenAtMs, done }] })
  else if (last?.done !== done) setSeen({ phase, samples: addSample(seen.samples, { atMs: seenAtMs, done }) })
  return ratePerS(seen.samples)
}

/** Phase, rows done of how many, rate and what is left. `seenAtMs`: when the server said so, on any steady clock. */
export function ImportProgress({ status, seenAtMs }: { status: ImportStatus; seenAtMs: number }) {
  const rate = useRate(status.rows_done, status.phase, seenAtMs)
  const total = status.rows_total
  // A phase that has counted nothing yet shows that it works, not that it stands at nothing.
  const value = total === null || status.rows_done === 0 ? null : status.rows_done / total
  const rows =
    total === null
      ? `${count(status.rows_done)} rows`
      : status.rows_done === 0
        ? `${count(total)} rows`
        : `${count(status.rows_done)} of ${count(total)} rows`
  const left = timeLeft(status.rows_done, total, rate)
  const detail = [rows, rate === null ? null : `${count(Math.round(rate))} rows/s`, left].filter((t) => t !== null).join(' · ')
  return <Progress label={stateWords(status)} value={value} detail={detail} />
}
