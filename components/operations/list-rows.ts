import type { Selection } from '@/components/map/types'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import type { ClassCounts, ListedSplice } from '@/lib/contract/contract'

export type ListRow =
  | { type: 'heading'; key: string; counts: ClassCounts }
  | { type: 'circuit'; key: string; circuitId: number; circuit: string; counts: ClassCounts; worst: ConditionClass }
  | { type: 'splice'; key: string; splice: ListedSplice }

const emptyCounts = (): ClassCounts => ({ sound: 0, watch: 0, degraded: 0, urgent: 0, critical: 0, unknown: 0 })

export type ListBy = 'risk' | 'circuit'

const isWatched = ({ class: c }: ListedSplice): boolean => c === 'critical' || c === 'urgent' || c === 'degraded'

/**
 * One flat list for the virtualiser, of splices in order of risk. By risk: what is degraded or worse on any circuit under one heading, then
 * every circuit with the rest of its splices; by circuit: every circuit with all of them. Circuits stand in the order of their worst.
 */
export function listRows(splices: readonly ListedSplice[], by: ListBy): ListRow[] {
  if (by === 'circuit') return circuitsOf(splices, () => true)
  const first = splices.filter(isWatched)
  return [...(first.length > 0 ? [headingOf(first)] : []), ...first.map(spliceRow), ...circuitsOf(splices, (splice) => !isWatched(splice))]
}

function headingOf(first: readonly ListedSplice[]): ListRow {
  const counts = emptyCounts()
  for (const splice of first) counts[splice.class]++
  return { type: 'heading', key: 'heading', counts }
}

const spliceRow = (splice: ListedSplice): ListRow => ({ type: 'splice', key: `splice-${splice.id}`, splice })

/** A circuit counts all of its splices, also those that stand above. */
function circuitsOf(sorted: readonly ListedSplice[], isListed: (splice: ListedSplice) => boolean): ListRow[] {
  const groups = new Map<number, ListedSplice[]>()
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
    for (const splice of group) if (isListed(splice)) rows.push(spliceRow(splice))
  }
  return rows
}

/** Where the selection stands in the list; -1 where it does not. */
export function indexOfSelection(rows: readonly ListRow[], selection: Selection): number {
  return selection === null ? -1 : rows.findIndex(({ key }) => key === `${selection.kind}-${selection.id}`)
}

/** Where the list begins for what was chosen elsewhere: a circuit at its worst splice, which may stand far above the circuit's own row. */
export function startOfSelection(rows: readonly ListRow[], selection: Selection): number {
  if (selection?.kind !== 'circuit') return indexOfSelection(rows, selection)
  return rows.findIndex((row) => (row.type === 'splice' ? row.splice.circuit_id === selection.id : row.type === 'circuit' && row.circuitId === selection.id))
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
