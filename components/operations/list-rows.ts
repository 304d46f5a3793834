import type { Selection } from '@/components/map/types'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import type { ClassCounts, SpliceSummary } from '@/lib/contract/contract'

export type ListRow =
  | { type: 'heading'; key: string; counts: ClassCounts }
  | { type: 'circuit'; key: string; circuitId: number; circuit: string; counts: ClassCounts; worst: ConditionClass }
  | { type: 'splice'; key: string; splice: SpliceSummary }

/** Worst highest; unknown says nothing, so it comes last in a list. */
const rank = (c: ConditionClass): number => (c === 'unknown' ? -1 : CONDITION_CLASSES.indexOf(c))

/** Worst first: class, then ratio, then the older reading; what has no figure comes after what has one. */
export function compareWorstFirst(a: SpliceSummary, b: SpliceSummary): number {
  const byClass = rank(b.class) - rank(a.class)
  if (byClass !== 0) return byClass
  const byRatio = (b.ratio ?? -1) - (a.ratio ?? -1)
  if (byRatio !== 0) return byRatio
  const byAge = (a.last_reading_at ?? '9999').localeCompare(b.last_reading_at ?? '9999')
  return byAge !== 0 ? byAge : a.id - b.id
}

const emptyCounts = (): ClassCounts => ({ sound: 0, watch: 0, degraded: 0, urgent: 0, critical: 0, unknown: 0 })

const isActionable = ({ class: c }: SpliceSummary): boolean => c === 'critical' || c === 'urgent'

/**
 * One flat list for the virtualiser: what is critical or urgent on any circuit under one heading, the worst first whatever circuit it is on;
 * then every circuit with the rest of its splices, circuits by their worst.
 */
export function urgentThenCircuits(splices: readonly SpliceSummary[]): ListRow[] {
  const sorted = [...splices].sort(compareWorstFirst)
  const first = sorted.filter(isActionable)
  return [...(first.length > 0 ? [headingOf(first)] : []), ...first.map(spliceRow), ...circuitsOf(sorted)]
}

function headingOf(first: readonly SpliceSummary[]): ListRow {
  const counts = emptyCounts()
  for (const splice of first) counts[splice.class]++
  return { type: 'heading', key: 'heading', counts }
}

const spliceRow = (splice: SpliceSummary): ListRow => ({ type: 'splice', key: `splice-${splice.id}`, splice })

/** A circuit counts all of its splices, also those that stand above. */
function circuitsOf(sorted: readonly SpliceSummary[]): ListRow[] {
  const groups = new Map<number, SpliceSummary[]>()
  for (const splice of sorted) {
    const group = groups.get(splice.circuit_id)
    if (group) group.push(splice)
    else groups.set(splice.circuit_id, [splice])
  }
  const rows: ListRow[] = []
  for (const [circuitId, group] of groups) {
    const counts = emptyCounts()
    for (const splice of group) counts[splice.class]++
    const worst = group[0]
    if (!worst) continue
    rows.push({ type: 'circuit', key: `circuit-${circuitId}`, circuitId, circuit: worst.circuit, counts, worst: worst.class })
    for (const splice of group) if (!isActionable(splice)) rows.push(spliceRow(splice))
  }
  return rows
}

/** Where the selection stands in the list; -1 where it does not. */
export function indexOfSelection(rows: readonly ListRow[], selection: Selection): number {
  return selection === null ? -1 : rows.findIndex(({ key }) => key === `${selection.kind}-${selection.id}`)
}

export const countOf = (counts: ClassCounts): number => CONDITION_CLASSES.reduce((sum, c) => sum + counts[c], 0)

/** The row that an arrow, page or end key leads to; null where the key is none of them. Rows before `first` are headings that nobody steps on. */
export function rowAfterKey(key: string, current: number, count: number, pageRows: number, first = 0): number | null {
  if (count === 0) return null
  const clamp = (i: number) => Math.max(first, Math.min(count - 1, i))
  switch (key) {
    case 'ArrowDown':
      return clamp(current + 1)
    case 'ArrowUp':
      return clamp(current - 1)
    case 'PageDown':
      return clamp(current + pageRows)
    case 'PageUp':
      return clamp(current - pageRows)
    case 'Home':
      return first
    case 'End':
      return count - 1
    default:
      return null
  }
}

/** 'Hidden by the filter: 2 critical, 5 urgent'; null where it hides none of them. */
export function hiddenSentence(hidden: { urgent: number; critical: number }): string | null {
  const parts = [hidden.critical > 0 ? `${hidden.critical} critical` : '', hidden.urgent > 0 ? `${hidden.urgent} urgent` : ''].filter(
    Boolean,
  )
  return parts.length > 0 ? `Hidden by the filter: ${parts.join(', ')}` : null
}
