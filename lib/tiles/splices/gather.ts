import { CELLS_PER_TILE, type CellGrid } from './cell-grid'
import { WORLD } from './morton'
import { CLASS_COUNT } from './splice-columns'
import type { Gathering } from './zoom-policy'

/** Splices drawn as one. */
export interface Cluster {
  total: number
  perClass: Uint32Array
  /** World units: the mean of its fullest cell, so that it stands on a line and not between two. */
  x: number
  y: number
  /** The only splice, where total is 1. */
  sample: number
}

/** A fixed shuffle of cells, so that rows of equal cells do not all lean one way. */
const shuffled = (cx: number, cy: number): number => Math.imul(Math.imul(cx, 0x9e3779b1) ^ Math.imul(cy, 0x85ebca6b), 0xc2b2ae35) >>> 0

/**
 * How far a tile must look beyond its edge to see all that decides its clusters. Each joining reaches three radii: from where the cluster
 * stands to its leader, from there to its members, and from those to whom else they might have joined.
 */
export const marginFor = ({ radiusCells, apartCells }: Gathering): number => 3 * (radiusCells + Math.ceil(apartCells))

/** Filled cells joined to the fullest cell within the radius, for all cells that lie far enough inside the grid to be sure of it. */
function joinCells(grid: CellGrid, radiusCells: number): Cluster[] {
  const { across, firstX, firstY, total } = grid
  const order = new Float64Array(total.length)
  for (let c = 0; c < total.length; c++) {
    if (total[c]) order[c] = total[c]! * 2 ** 22 + (shuffled(firstX + (c % across), firstY + Math.floor(c / across)) >>> 10)
  }
  const leads = (a: number, b: number) => order[a]! > order[b]! || (order[a] === order[b] && a > b)
  const clusters = new Map<number, Cluster>()
  const fullest = new Map<number, number>()
  for (let row = radiusCells; row < across - radiusCells; row++) {
    for (let column = radiusCells; column < across - radiusCells; column++) {
      const cell = row * across + column
      if (!total[cell]) continue
      let leader = cell
      for (let dy = -radiusCells; dy <= radiusCells; dy++) {
        for (let dx = -radiusCells; dx <= radiusCells; dx++) {
          const other = cell + dy * across + dx
          if (total[other] && dx * dx + dy * dy <= radiusCells * radiusCells && leads(other, leader)) leader = other
        }
      }
      const perClass = grid.perClass.subarray(cell * CLASS_COUNT, (cell + 1) * CLASS_COUNT)
      const x = Math.floor(grid.sumX[cell]! / total[cell]!)
      const y = Math.floor(grid.sumY[cell]! / total[cell]!)
      const cluster = addTo(clusters, leader, { total: total[cell]!, perClass, x, y, sample: grid.sample[cell]! })
      const best = fullest.get(leader)
      if (best === undefined || leads(cell, best)) {
        fullest.set(leader, cell)
        Object.assign(cluster, { x, y })
      }
    }
  }
  return [...clusters.values()]
}

/** Adds to the cluster under a key; the first to come says where it stands. */
function addTo(clusters: Map<number, Cluster>, key: number, more: Cluster): Cluster {
  const cluster = clusters.get(key)
  if (!cluster) {
    const first = { ...more, perClass: more.perClass.slice() }
    clusters.set(key, first)
    return first
  }
  cluster.total += more.total
  for (let k = 0; k < CLASS_COUNT; k++) cluster.perClass[k]! += more.perClass[k]!
  return cluster
}

/** Clusters joined to the largest one that stands nearer than `apart` world units. */
function joinNeighbours(clusters: Cluster[], apart: number): Cluster[] {
  // Largest first, so that the first one near enough is the leader; in order of place where equal, which every tile sees alike.
  const ranked = [...clusters].sort((a, b) => b.total - a.total || b.y - a.y || b.x - a.x || b.sample - a.sample)
  const joined = new Map<number, Cluster>()
  for (const one of ranked) addTo(joined, ranked.findIndex((c) => (c.x - one.x) ** 2 + (c.y - one.y) ** 2 < apart * apart), one)
  return [...joined.values()]
}

/**
 * Gathers cells into the clusters of tile z/x/y. The rules look only at what lies around a cell, so neighbouring tiles, each on its own,
 * come to the same clusters and every splice is counted exactly once. A cluster belongs to the tile in which it stands.
 */
export function gatherClusters(grid: CellGrid, { radiusCells, apartCells }: Gathering, z: number, x: number, y: number): Cluster[] {
  const tile = WORLD / 2 ** z
  const cells = joinCells(grid, radiusCells)
  const clusters = apartCells > 0 ? joinNeighbours(cells, (apartCells * tile) / CELLS_PER_TILE) : cells
  return clusters.filter((c) => Math.floor(c.x / tile) === x && Math.floor(c.y / tile) === y)
}
