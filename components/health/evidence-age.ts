import { formatPercent } from '@/lib/units/format'
import type { CircuitHealth } from '@/lib/contract/contract'
import { formatMonth } from '@/lib/units/time'

export type ConclusiveAge = Pick<
  CircuitHealth['coverage'], 'conclusive_oldest_on' | 'conclusive_newest_on' | 'conclusive_stale_share' | 'conclusive_stale_span_phases' | 'every_interface_span_phases'
>

/** From when the evidence is: 'Apr 2023 to Nov 2026', or one month; empty where there is none. */
export function evidenceSpan({ conclusive_oldest_on: oldest, conclusive_newest_on: newest }: ConclusiveAge): string {
  if (oldest === null || newest === null) return ''
  const [from, to] = [oldest, newest].map((day) => formatMonth(Date.parse(`${day}T12:00:00Z`), 'UTC'))
  return from === to ? `${to}` : `${from} to ${to}`
}

/** How much was looked at conclusively too long ago for its class: 'and 12% past re-survey'; empty where none was. */
export const staleText = ({ conclusive_stale_share: share }: ConclusiveAge): string =>
  share === null || share === 0 ? '' : `and ${formatPercent(share)} past re-survey`

/** The same for a narrow cell, whose page says what infrared alone may have missed: 'all by resistance', 'infrared only', '12% by resistance'. */
export function shortMethodText(current: number, { every_interface_span_phases: read }: Pick<ConclusiveAge, 'every_interface_span_phases'>, spanPhases: number): string {
  if (current <= 0 || spanPhases <= 0) return ''
  if (read <= 0) return 'by infrared only'
  return read >= current ? 'by resistance' : `${formatPercent(read / spanPhases)} by resistance, the rest by infrared only`
}

/** 'by resistance 12%, by infrared only 14%: there one bad side may not have shown', of what is within the re-survey interval; empty of nothing. */
export function methodText(current: number, { every_interface_span_phases: read }: Pick<ConclusiveAge, 'every_interface_span_phases'>, spanPhases: number): string {
  if (current <= 0 || spanPhases <= 0) return ''
  const infrared = Math.max(0, current - read)
  return `by resistance ${formatPercent(read / spanPhases)}, by infrared only ${formatPercent(infrared / spanPhases)}${infrared > 0 ? ': there one bad side may not have shown' : ''}`
}
