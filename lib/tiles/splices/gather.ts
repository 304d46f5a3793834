import { CELLS_PER_TILE, type CellGrid } from './cell-grid'
import { WORLD } from './morton'
import { CLASS_COUNT } from './splice-columns'

/** Splices drawn as one. */
export interface Cluster {
  total: number
  perClass: Uint32Array
  /** World units: the mean of its splices. */
  x: number
  y: number
  /** The only splice, where total is 1. */
  sample: number
}

/** A fixed shuffle of cells, so that rows of equal cells do not all lean one way. */
const shuffled = (cx: number, cy: number): number => Math.imul(Math.imul(cx, 0x9e3779b1) ^ Math.imul(cy, 0x85ebca6b), 0xc2b2ae35) >>> 0

/** How far the margin must reach so that every tile sees all that decides its clusters: key, its members, their neighbours. */
export const marginFor = (radiusCells: number): number => 3 * radiusCells

/**
 * Gathers cells into clusters: each filled cell joins the fullest cell within the radius. The rule looks only at a cell's surroundings,
 * so neighbouring tiles, each on its own, come to the same clusters and every splice is counted exactly once. A cluster belongs to the
 * tile in which its mean lies.
 */
export function gatherClusters(grid: CellGrid, radiusCells: number, z: number, x: number, y: number): Cluster[] {
  const { across, marginCells, firstX, firstY, total } = grid
  const order = new Float64Array(total.length)
  for (let c = 0; c < total.length; c++) {
    if (total[c]) order[c] = total[c]! * 2 ** 22 + (shuffled(firstX + (c % across), firstY + Math.floor(c / across)) >>> 10)
  }
  const leads = (a: number, b: number) => order[a]! > order[b]! || (order[a] === order[b] && a > b)
  const clusters = new Map<number, Cluster>()
  const from = marginCells - 2 * radiusCells
  const to = marginCells + CELLS_PER_TILE + 2 * radiusCells
  for (let row = from; row < to; row++) {
    for (let column = from; column < to; column++) {
      const cell = row * across + column
      if (!total[cell]) continue
      let key = cell
      for (let dy = -radiusCells; dy <= radiusCells; dy++) {
        for (let dx = -radiusCells; dx <= radiusCells; dx++) {
          const other = cell + dy * across + dx
          if (total[other] && dx * dx + dy * dy <= radiusCells * radiusCells && leads(other, key)) key = other
        }
      }
      let cluster = clusters.get(key)
      if (!cluster) {
        cluster = { total: 0, perClass: new Uint32Array(CLASS_COUNT), x: 0, y: 0, sample: grid.sample[cell]! }
        clusters.set(key, cluster)
      }
      cluster.total += total[cell]!
      cluster.x += grid.sumX[cell]!
      cluster.y += grid.sumY[cell]!
      for (let k = 0; k < CLASS_COUNT; k++) cluster.perClass[k]! += grid.perClass[cell * CLASS_COUNT + k]!
    }
  }
  const tile = WORLD / 2 ** z
  const own: Cluster[] = []
  for (const cluster of clusters.values()) {
    cluster.x = Math.floor(cluster.x / cluster.total)
    cluster.y = Math.floor(cluster.y / cluster.total)
    if (Math.floor(cluster.x / tile) === x && Math.floor(cluster.y / tile) === y) own.push(cluster)
  }
  return own
}
