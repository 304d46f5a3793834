import { positionText, type PhaseLetters } from '@/components/splice/position'
import { classNow, pastText } from '@/components/splice/past-re-measure'
import { formatLineDistance, formatRatio, type UnitSystem } from '@/lib/units/format'
import type { StripSplice } from '@/lib/contract/strip'
import type { Stretch, LaidSection } from './axis'

export interface StripWords { system: UnitSystem; timeZone: string; letters: PhaseLetters; nowMs: number }

export const PLANNED = 'no planned repairs or outage windows on record'

/** 'was sound', 'urgent, held'; of a selected splice that the list's filter leaves out, that too. */
export const standingText = (splice: StripSplice, nowMs: number): string =>
  [classNow(splice, nowMs), splice.held ? 'held' : '', splice.in_filter ? '' : 'not in the filter'].filter(Boolean).join(', ')

/** A mark read aloud. */
export function markLabel(splice: StripSplice, behind: number, words: StripWords): string {
  return [
    `${splice.splice}, ${standingText(splice, words.nowMs)}`,
    pastText(splice, words.timeZone, words.nowMs),
    splice.ratio === null ? 'no ratio' : `measured ratio ${formatRatio(splice.ratio)}`,
    splice.held ? '' : `${splice.confidence} confidence`,
    `line distance ${formatLineDistance(splice.line_distance_m, words.system)}`,
    positionText(splice, words.system, words.letters),
    behind > 0 ? `stands for ${behind} more, none urgent or critical` : '',
  ].filter(Boolean).join(', ')
}

/** '12.40 km to 28.90 km'; on more than one section their names. */
export function stretchText({ fromM, toM }: Stretch, laid: readonly LaidSection[], system: UnitSystem): string {
  const shown = laid.filter((s) => s.toM > fromM && s.fromM < toM)
  const parts = shown.map((s) => {
    const ends = [Math.max(fromM, s.fromM), Math.min(toM, s.toM)].map((m) => m - s.fromM + s.startM)
      .map((m) => (Math.abs(m) < 0.5 ? '0' : formatLineDistance(m, system)))
    return `${s.name === 'main' ? '' : `${s.name} `}${ends.join(' to ')}`
  })
  return parts.length > 2 ? `${parts[0]} and ${parts.length - 1} taps` : parts.join(', ')
}
