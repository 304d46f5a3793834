import { mortonKey, mortonOrder, tileKeyRange, WORLD, worldX, worldY } from './morton'
import { runningSums, type RunningSums } from './running-sums'
import type { Side } from './sides'
import { CLASS_COUNT, UNKNOWN, type SpliceColumns, type SpliceGroup } from './splice-columns'

const MAX_SPLIT_ZOOM = 26

/** Splices sorted by Morton key in typed arrays: about 37 bytes each beside the names. */
export interface SpliceIndex {
  count: number
  /** World units, see morton.ts. */
  x: Uint32Array
  y: Uint32Array
  id: Int32Array
  classNo: Uint8Array
  renewByDay: Int32Array
  axisDeg: Uint8Array
  /** Empty where no circuits share their structures. */
  sideNo: Uint32Array
  sides: Side[]
  groupNo: Uint32Array
  groups: SpliceGroup[]
  sums: RunningSums
  nameOf(i: number): string
  /** Worst class number of each circuit over all its splices, unfiltered; UNKNOWN where none is measured. */
  worstOfCircuit: Map<number, number>
}

/** True where class a must win over class b on a map: worse wins, and unknown gives way to everything. */
export const isWorse = (a: number, b: number): boolean => (b === UNKNOWN ? a !== UNKNOWN : a !== UNKNOWN && a > b)

function nameReader(names: Uint8Array, row: Uint32Array): (i: number) => string {
  const start = new Uint32Array(row.length + 1)
  let at = 0
  for (let r = 1; r <= row.length; r++) {
    const end = names.indexOf(0, at)
    at = end < 0 ? names.length + 1 : end + 1
    start[r] = at
  }
  const decoder = new TextDecoder()
  return (i) => {
    const r = row[i] ?? 0
    return decoder.decode(names.subarray(start[r], (start[r + 1] ?? 0) - 1))
  }
}

function worstOfCircuits(columns: SpliceColumns): Map<number, number> {
  const present = new Uint8Array(columns.groups.length * CLASS_COUNT)
  for (let i = 0; i < columns.id.length; i++) present[(columns.groupNo[i] ?? 0) * CLASS_COUNT + (columns.classNo[i] ?? UNKNOWN)] = 1
  const worst = new Map<number, number>()
  columns.groups.forEach((group, g) => {
    for (let c = 0; c < CLASS_COUNT; c++) {
      if (present[g * CLASS_COUNT + c] && isWorse(c, worst.get(group.circuitId) ?? UNKNOWN)) worst.set(group.circuitId, c)
    }
  })
  return worst
}

/** The work is cut into slices, so that a server keeps answering while it builds: `breathe` is awaited between them. */
export async function buildSpliceIndex(columns: SpliceColumns, breathe: () => Promise<void> = async () => {}): Promise<SpliceIndex> {
  const count = columns.id.length
  const unsortedX = Uint32Array.from(columns.lonDeg, worldX)
  await breathe()
  const unsortedY = Uint32Array.from(columns.latDeg, worldY)
  await breathe()
  const row = mortonOrder(unsortedX, unsortedY)
  await breathe()
  const x = row.map((r) => unsortedX[r] ?? 0)
  const y = row.map((r) => unsortedY[r] ?? 0)
  const id = new Int32Array(count)
  const classNo = new Uint8Array(count)
  const renewByDay = new Int32Array(count)
  const axisDeg = new Uint8Array(count)
  const groupNo = new Uint32Array(count)
  const sideNo = columns.sideNo.length > 0 ? row.map((r) => columns.sideNo[r] ?? 0) : columns.sideNo
  for (let i = 0; i < count; i++) {
    const r = row[i] ?? 0
    id[i] = columns.id[r] ?? 0
    classNo[i] = columns.classNo[r] ?? UNKNOWN
    renewByDay[i] = columns.renewByDay[r] ?? 0
    axisDeg[i] = columns.axisDeg[r] ?? 0
    groupNo[i] = columns.groupNo[r] ?? 0
  }
  await breathe()
  const sums = runningSums(x, y, classNo)
  await breathe()
  const nameOf = nameReader(columns.names, row)
  const { groups, sides } = columns
  return { count, x, y, id, classNo, renewByDay, axisDeg, sideNo, sides, groupNo, groups, sums, nameOf, worstOfCircuit: worstOfCircuits(columns) }
}

/** The first point at or after `from` whose key is not below `key`. */
function lowerBound(index: SpliceIndex, key: number, from: number, to: number): number {
  let low = from
  let high = to
  while (low < high) {
    const middle = (low + high) >>> 1
    if (mortonKey(index.x[middle] ?? 0, index.y[middle] ?? 0) < key) low = middle + 1
    else high = middle
  }
  return low
}

/** World units, from included, to excluded. */
export interface WorldRect { fromX: number; fromY: number; toX: number; toY: number }

/** A range of points that lie in one node of the quadtree; `inside`: the node lies wholly in the rectangle. */
export type VisitRange = (from: number, to: number, inside: boolean, nodeZoom: number) => void

/** Ranges below this many points are handed over as they are: looking at each costs less than dividing on. */
const SMALL_RANGE = 32
/** Points per node of the last level from which finding that node's ends is quicker than looking at its points. */
const WORTH_DIVIDING = 32

/**
 * Calls `visit` with ranges that together hold every point inside the rectangle, in Morton order; where a range is not `inside`, each of
 * its points must be looked at. Descends the quadtree that the Morton order is, leaving out empty and outside quarters: to where a node
 * lies wholly inside, and on to `toZoom` where that is given and the points are many.
 */
export function visitRect(index: SpliceIndex, rect: WorldRect, visit: VisitRange, toZoom = 0): void {
  const descend = (z: number, tx: number, ty: number, from: number, to: number): void => {
    if (from === to) return
    const size = WORLD / 2 ** z
    const left = tx * size
    const top = ty * size
    if (left >= rect.toX || top >= rect.toY || left + size <= rect.fromX || top + size <= rect.fromY) return
    const inside = left >= rect.fromX && top >= rect.fromY && left + size <= rect.toX && top + size <= rect.toY
    const deepEnough = z >= toZoom || to - from <= WORTH_DIVIDING * 4 ** (toZoom - z)
    if ((inside && deepEnough) || z === MAX_SPLIT_ZOOM || to - from <= SMALL_RANGE) return visit(from, to, inside, z)
    let at = from
    for (let quarter = 0; quarter < 4; quarter++) {
      const qx = 2 * tx + (quarter & 1)
      const qy = 2 * ty + (quarter >>> 1)
      const end = quarter === 3 ? to : lowerBound(index, tileKeyRange(z + 1, qx, qy)[1], at, to)
      descend(z + 1, qx, qy, at, end)
      at = end
    }
  }
  descend(0, 0, 0, 0, index.count)
}
