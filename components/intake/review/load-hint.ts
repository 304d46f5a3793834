import { durationText } from '@/components/splice/age'
import type { Candidate, ReviewItem } from '@/lib/contract/contract'
import { formatCurrent } from '@/lib/units/format'

const SAME_MS = 30 * 60_000

/** A load of another season tells nothing of the day of the reading. */
const FARTHEST_MS = 31 * 86_400_000

/** Whether it is open which circuit a reading was taken on. */
export const isCircuitOpen = ({ candidates }: Pick<ReviewItem, 'candidates'>): boolean => new Set(candidates.map((c) => c.circuit_id)).size > 1

/** 'carried 651 A 14 days before'; empty where no load of that month is known, or not when the reading was taken. */
export function nearestLoadText({ nearest_load: load }: Pick<Candidate, 'nearest_load'>, takenAt: string | null): string {
  if (!load || takenAt === null) return ''
  const apartMs = Date.parse(load.taken_at) - Date.parse(takenAt)
  if (Math.abs(apartMs) > FARTHEST_MS) return ''
  const when = Math.abs(apartMs) <= SAME_MS ? 'at that time' : `${durationText(Math.abs(apartMs))} ${apartMs < 0 ? 'before' : 'after'}`
  return `carried ${formatCurrent(load.current_a)} ${when}${load.quality === 'estimated' ? ', estimated' : ''}`
}

/** What to ask first, and what the loads beside the circuits are worth; empty where one circuit alone comes into question. */
export function circuitAdvice(item: Pick<ReviewItem, 'candidates' | 'reading'>): { ask: string; hint: string } | null {
  if (!isCircuitOpen(item)) return null
  const { line_current_a: readA } = item.reading.fields
  const known = item.candidates.some((c) => nearestLoadText(c, item.reading.taken_at) !== '')
  const hint = typeof readA !== 'number' || !known ? ''
    : `${formatCurrent(readA)} was read. Beside each circuit stands what it carried nearest to then: a hint which fits, not evidence, for circuits may carry alike.`
  return { ask: 'Ask the crew for the circuit tag on the structure first.', hint }
}

/** A current read on a line and a load by its meter differ by less than this factor where they are of one circuit at one time. */
const APART = { measured: 1.5, estimated: 2 }

/** Under it a factor tells nothing: an idle line's load is mostly charging current. */
const LEAST_APART_A = 50

/** A clamp or a relay reads within a tenth. */
const OVER_RATING = 1.1

/**
 * What the reading's own current says against a candidate, as the end of a sentence; empty where it says nothing. It is more than its section may
 * carry even for a time, or its section carried something quite different at that very time.
 */
export function againstText({ nearest_load: load, most_a: mostA }: Pick<Candidate, 'nearest_load' | 'most_a'>, { taken_at: takenAt, fields }: Pick<ReviewItem['reading'], 'taken_at' | 'fields'>): string {
  const { line_current_a: readA } = fields
  if (typeof readA !== 'number') return ''
  if (typeof mostA === 'number' && readA > mostA * OVER_RATING) return `${formatCurrent(readA)} was read, more than the ${formatCurrent(mostA)} that it may carry even for a time`
  if (!load || takenAt === null || Math.abs(Date.parse(load.taken_at) - Date.parse(takenAt)) > SAME_MS) return ''
  const [low, high] = [Math.min(readA, load.current_a), Math.max(readA, load.current_a)]
  const factor = load.quality === 'estimated' ? APART.estimated : APART.measured
  return high - low > LEAST_APART_A && high > low * factor ? `${formatCurrent(readA)} was read, where it carried ${formatCurrent(load.current_a)} at that time` : ''
}
