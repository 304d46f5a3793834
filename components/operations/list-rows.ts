import type { Selection } from '@/components/map/types'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import type { ClassCounts, ListedSplice } from '@/lib/contract/contract'
import type { Corridor } from '@/lib/contract/corridors'

export type ListRow =
  | { type: 'heading'; key: string; counts: ClassCounts }
  | { type: 'circuit'; key: string; circuitId: number; circuit: string; counts: ClassCounts; worst: ConditionClass }
  /** `circuitId`: the one with the worst of its splices. */
  | { type: 'corridor'; key: string; circuitId: number; corridor: Corridor; counts: ClassCounts; worst: ConditionClass }
  /** `among`: with splices of other circuits under one heading, so that it names its own. */
  | { type: 'splice'; key: string; splice: ListedSplice; among: boolean }

const emptyCounts = (): ClassCounts => ({ sound: 0, watch: 0, degraded: 0, urgent: 0, critical: 0, unknown: 0 })

export const LIST_BY = ['risk', 'circuit', 'corridor'] as const
export type ListBy = (typeof LIST_BY)[number]

const isWatched = ({ class: c }: ListedSplice): boolean => c === 'critical' || c === 'urgent' || c === 'degraded'

/**
 * One flat list for the virtualiser, of splices in order of risk. By risk: what is degraded or worse on any circuit under one heading, then
 * every circuit with the rest of its splices; by circuit: every circuit with all of them; by corridor: every corridor with all splices of
 * its circuits, then every circuit that hangs alone. Corridors and circuits stand in the order of their worst.
 */
export function listRows(splices: readonly ListedSplice[], by: ListBy, corridors: readonly Corridor[] = []): ListRow[] {
  if (by === 'circuit') return circuitsOf(splices, () => true)
  if (by === 'corridor') return corridorsThenAlone(splices, corridors)
  const first = splices.filter(isWatched)
  return [
    ...(first.length > 0 ? [{ type: 'heading', key: 'heading', counts: countsOf(first) } as const] : []),
    ...first.map((splice) => spliceRow(splice, true)), ...circuitsOf(splices, (splice) => !isWatched(splice)),
  ]
}

function countsOf(splices: readonly ListedSplice[]): ClassCounts {
  const counts = emptyCounts()
  for (const splice of splices) counts[splice.class]++
  return counts
}

const spliceRow = (splice: ListedSplice, among = false): ListRow => ({ type: 'splice', key: `splice-${splice.id}`, splice, among })

function corridorsThenAlone(sorted: readonly ListedSplice[], corridors: readonly Corridor[]): ListRow[] {
  const corridorOf = new Map(corridors.flatMap((corridor) => corridor.circuits.map(({ circuit_id: id }) => [id, corridor] as const)))
  const groups = groupsOf(sorted.filter((splice) => corridorOf.has(splice.circuit_id)), (splice) => corridorOf.get(splice.circuit_id))
  return [
    ...[...groups].flatMap(([corridor, group]): ListRow[] => {
      const [worst] = group
      if (!corridor || !worst) return []
      const key = `corridor-${corridor.circuits[0]?.circuit_id}`
      return [
        { type: 'corridor', key, circuitId: worst.circuit_id, corridor, counts: countsOf(group), worst: worst.class }, ...group.map((splice) => spliceRow(splice, true)),
      ]
    }),
    ...circuitsOf(sorted.filter((splice) => !corridorOf.has(splice.circuit_id)), () => true),
  ]
}

/** A circuit counts all of its splices, also those that stand above. */
function circuitsOf(sorted: readonly ListedSplice[], isListed: (splice: ListedSplice) => boolean): ListRow[] {
  return [...groupsOf(sorted, (splice) => splice.circuit_id)].flatMap(([circuitId, group]): ListRow[] => {
    const [worst] = group
    if (!worst) return []
    return [
      { type: 'circuit', key: `circuit-${circuitId}`, circuitId, circuit: worst.circuit, counts: countsOf(group), worst: worst.class },
      ...group.filter(isListed).map((splice) => spliceRow(splice)),
    ]
  })
}

function groupsOf<K>(splices: readonly ListedSplice[], keyOf: (splice: ListedSplice) => K): Map<K, ListedSplice[]> {
  const groups = new Map<K, ListedSplice[]>()
  for (const splice of splices) {
    const key = keyOf(splice)
    const group = groups.get(key)
    if (group) group.push(splice)
    else groups.set(key, [splice])
  }
  return groups
}

/** Whether a heading stands for this circuit: its own, or that of its corridor. */
const isOfCircuit = (row: ListRow, id: number): boolean =>
  row.type === 'circuit' ? row.circuitId === id : row.type === 'corridor' && row.corridor.circuits.some(({ circuit_id: one }) => one === id)

/** Where the selection stands in the list; -1 where it does not. */
export function indexOfSelection(rows: readonly ListRow[], selection: Selection): number {
  if (selection === null) return -1
  return rows.findIndex((row) => (selection.kind === 'circuit' ? isOfCircuit(row, selection.id) : row.key === `splice-${selection.id}`))
}

/** Where the list begins for what was chosen elsewhere: a circuit at its worst splice, which may stand far above the circuit's own row. */
export function startOfSelection(rows: readonly ListRow[], selection: Selection): number {
  if (selection?.kind !== 'circuit') return indexOfSelection(rows, selection)
  return rows.findIndex((row) => (row.type === 'splice' ? row.splice.circuit_id === selection.id : isOfCircuit(row, selection.id)))
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
