import type { SpanState, SurveyPhase } from '@/lib/contract/survey-layer'
import { newestYear, phaseLooks, type SpanLooks } from './looks'

/** How some phases of a span were looked at; see SPAN_STATES. */
export interface SpanLook {
  state: SpanState
  /** Of the phase that waited longest among those looked at; absent of never and elsewhen. */
  year?: number
  /** The last look at that phase was of a flight or patrol that wrote down its finds alone. */
  patrol?: boolean
}

/**
 * Never is never, whatever years are chosen: a phase is covered by any dated reading or patrol, as the roll-up, the sheet and the strip have it.
 * A look at a phase that nobody confirmed is one at none of its phases, and yet somebody was there.
 */
export function spanLook(looks: SpanLooks, spanId: number, phases: readonly SurveyPhase[], all: boolean, years: number): SpanLook {
  let never = 0
  let missing = 0
  let oldest: { year: number; patrol: boolean } | undefined
  for (const phase of phases) {
    const { read, patrolled } = phaseLooks(looks, spanId, phase)
    if ((read | patrolled) === 0) never++
    const last = lastLook(read & years, patrolled & years, looks.firstYear)
    if (!last) missing++
    else if (!oldest || last.year < oldest.year || (last.year === oldest.year && last.patrol)) oldest = last
  }
  const unconfirmed = all ? phaseLooks(looks, spanId, '') : { read: 0, patrolled: 0 }
  if (never === phases.length && (unconfirmed.read | unconfirmed.patrolled) === 0) return { state: 'never' }
  const shown = oldest ?? lastLook(unconfirmed.read & years, unconfirmed.patrolled & years, looks.firstYear)
  if (!shown) return { state: 'elsewhen' }
  return { state: missing > 0 ? 'part' : 'seen', ...shown }
}

function lastLook(read: number, patrolled: number, firstYear: number): { year: number; patrol: boolean } | undefined {
  const year = newestYear(read | patrolled, firstYear)
  return year === undefined ? undefined : { year, patrol: newestYear(read, firstYear) !== year }
}
