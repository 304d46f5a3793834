'use client'
import { useState } from 'react'
import { Progress } from '@/components/ui/states'
import type { ImportStatus } from '@/lib/contract/contract'
import { addSample, progressOf, ratePerS, timeLeft, type Sample } from './progress'
import { count, stateWords } from './words'

/** Rows or splices per second over the last looks; begins anew with every phase. */
function useRate(done: number, phase: string | null, seenAtMs: number): number | null {
  const [seen, setSeen] = useState<{ phase: string | null; samples: Sample[] }>({ phase, samples: [] })
  const last = seen.samples.at(-1)
  if (seen.phase !== phase) setSeen({ phase, samples: [{ atMs: seenAtMs, done }] })
  else if (last?.done !== done) setSeen({ phase, samples: addSample(seen.samples, { atMs: seenAtMs, done }) })
  return ratePerS(seen.samples)
}

/** Phase, rows or splices done of how many, rate and what is left. `seenAtMs`: when the server said so, on any steady clock. */
export function ImportProgress({ status, seenAtMs }: { status: ImportStatus; seenAtMs: number }) {
  const { done, total, of } = progressOf(status)
  const rate = useRate(done, status.phase, seenAtMs)
  // A phase that has counted nothing yet shows that it works, not that it stands at nothing.
  const value = total === null || done === 0 ? null : done / total
  const counted = total === null ? `${count(done)} ${of}` : done === 0 ? `${count(total)} ${of}` : `${count(done)} of ${count(total)} ${of}`
  const left = timeLeft(done, total, rate)
  const detail = [counted, rate === null ? null : `${count(Math.round(rate))} ${of}/s`, left].filter((t) => t !== null).join(' · ')
  return <Progress label={stateWords(status)} value={value} detail={detail} />
}
