import type { Cluster } from './gather'
import { CELLS_PER_TILE } from './cell-grid'
import type { ReadyFilter } from './match-filter'
import { WORLD } from './morton'
import type { Step } from './sides'
import { visitRect, type SpliceIndex } from './splice-index'

/** A splice of one filled cell: where it is drawn, and how many steps beside that. */
export interface Fanned { i: number; x: number; y: number; steps: Step }

/** Lines that run east and west rather than north and south: what stands beside them stands above or below. */
export const isAcross = (axisDeg: number): boolean => axisDeg > 45 && axisDeg < 135

function membersOf(index: SpliceIndex, filter: ReadyFilter, z: number, cluster: Cluster): number[] {
  const cell = WORLD / 2 ** z / CELLS_PER_TILE
  const fromX = Math.floor(cluster.x / cell) * cell
  const fromY = Math.floor(cluster.y / cell) * cell
  const members: number[] = []
  visitRect(index, { fromX, fromY, toX: fromX + cell, toY: fromY + cell }, (from, to) => {
    for (let i = from; i < to; i++) {
      const x = index.x[i]!
      const y = index.y[i]!
      const inCell = x >= fromX && x < fromX + cell && y >= fromY && y < fromY + cell
      if (inCell && filter.classes[index.classNo[i]!] && filter.groups[index.groupNo[i]!] && (filter.picked === null || filter.picked[i])) members.push(i)
    }
  })
  return members
}

/**
 * The splices of one filled cell as a row of marks each, in a fixed order: circuit, phase, id. On a line by itself the row stands across
 * it; beside another circuit it would stand on that one, so there each circuit has a row of its own along its own line.
 */
export function fan(index: SpliceIndex, filter: ReadyFilter, z: number, cluster: Cluster): Fanned[] {
  const groupOf = (i: number) => index.groups[index.groupNo[i] ?? 0]
  const members = membersOf(index, filter, z, cluster).sort((a, b) => {
    const [ga, gb] = [groupOf(a), groupOf(b)]
    const byPhase = (ga?.phase ?? '~').localeCompare(gb?.phase ?? '~', 'en')
    return (ga?.circuitId ?? 0) - (gb?.circuitId ?? 0) || byPhase || index.id[a]! - index.id[b]!
  })
  const rows = new Map<number, number[]>()
  for (const i of members) {
    const row = index.sideNo[i] ? (groupOf(i)?.circuitId ?? 0) : -1
    const others = rows.get(row)
    if (others) others.push(i)
    else rows.set(row, [i])
  }
  return [...rows].flatMap(([row, ids]) => {
    const mean = (of: Uint32Array) => ids.reduce((sum, i) => sum + of[i]!, 0) / ids.length
    const [x, y] = [mean(index.x), mean(index.y)]
    return ids.map((i, slot): Fanned => {
      const by = slot - (ids.length - 1) / 2
      if (row < 0) return { i, x, y, steps: isAcross(index.axisDeg[i] ?? 0) ? [0, by] : [by, 0] }
      // A row has one direction, whichever way each of its spans runs.
      const [right = 0, down = 0] = index.sides[index.sideNo[ids[0]!] ?? 0]?.along ?? []
      return { i, x, y, steps: [by * right, by * down] }
    })
  })
}
