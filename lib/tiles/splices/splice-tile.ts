import type { SpliceFilter } from '@/lib/contract/filter'
import { encodeTile, EXTENT, type TileFeature, type TilePoint } from '../encode'
import { CELLS_PER_TILE, countCells } from './cell-grid'
import { classMix } from './class-mix'
import { gatherClusters, marginFor, type Cluster } from './gather'
import { readyFilter, type ReadyFilter } from './match-filter'
import { WORLD } from './morton'
import { CLASS_COUNT, TILE_CLASSES, UNKNOWN } from './splice-columns'
import { isWorse, visitRect, type SpliceIndex } from './splice-index'
import { FAN_FROM_ZOOM, FAN_LIMIT, gatheringAt } from './zoom-policy'

export interface TileAddress { z: number; x: number; y: number }

/** Drawing order: unknown below everything measured. */
const rankOf = (classNo: number): number => (classNo === UNKNOWN ? 0 : classNo + 1)

function pointAt(tile: TileAddress, x: number, y: number): [number, number][] {
  const size = WORLD / 2 ** tile.z
  const local = (world: number, t: number) => Math.min(EXTENT - 1, Math.floor(((world - t * size) / size) * EXTENT))
  return [[local(x, tile.x), local(y, tile.y)]]
}

function clusterFeature(tile: TileAddress, cluster: Cluster): TilePoint {
  let worst = UNKNOWN
  const counts: Record<string, number> = {}
  for (let c = 0; c < CLASS_COUNT; c++) {
    const n = cluster.perClass[c] ?? 0
    counts[TILE_CLASSES[c] ?? ''] = n
    if (n > 0 && isWorse(c, worst)) worst = c
  }
  const action = (counts.urgent ?? 0) + (counts.critical ?? 0)
  const tags = { total: cluster.total, ...counts, action, worst: TILE_CLASSES[worst], rank: rankOf(worst), mix: classMix(cluster.perClass) }
  return { type: 1, geometry: pointAt(tile, cluster.x, cluster.y), tags }
}

/** Lines that run east and west rather than north and south: what stands beside them stands above or below. */
const isAcross = (axisDeg: number): boolean => axisDeg > 45 && axisDeg < 135

function spliceFeature(index: SpliceIndex, i: number, geometry: [number, number][], slot: number, of: number): TilePoint {
  const classNo = index.classNo[i] ?? UNKNOWN
  const group = index.groups[index.groupNo[i] ?? 0]
  const tags = {
    class: TILE_CLASSES[classNo], rank: rankOf(classNo), name: index.nameOf(i), circuit: group?.circuitId, phase: group?.phase,
    across: isAcross(index.axisDeg[i] ?? 0) ? 1 : null,
    ...(of > 1 ? { slot, of } : {}),
  }
  return { type: 1, id: index.id[i], geometry, tags }
}

/** The splices of one filled cell side by side in a fixed order: circuit, phase, id. */
function fan(index: SpliceIndex, filter: ReadyFilter, tile: TileAddress, cluster: Cluster): TilePoint[] {
  const cell = WORLD / 2 ** tile.z / CELLS_PER_TILE
  const fromX = Math.floor(cluster.x / cell) * cell
  const fromY = Math.floor(cluster.y / cell) * cell
  const members: number[] = []
  visitRect(index, { fromX, fromY, toX: fromX + cell, toY: fromY + cell }, (from, to) => {
    for (let i = from; i < to; i++) {
      const x = index.x[i]!
      const y = index.y[i]!
      const inCell = x >= fromX && x < fromX + cell && y >= fromY && y < fromY + cell
      if (inCell && filter.classes[index.classNo[i]!] && filter.groups[index.groupNo[i]!]) members.push(i)
    }
  })
  const keyOf = (i: number) => index.groups[index.groupNo[i] ?? 0]
  members.sort((a, b) => {
    const [ga, gb] = [keyOf(a), keyOf(b)]
    const byPhase = (ga?.phase ?? '~').localeCompare(gb?.phase ?? '~', 'en')
    return (ga?.circuitId ?? 0) - (gb?.circuitId ?? 0) || byPhase || index.id[a]! - index.id[b]!
  })
  const geometry = pointAt(tile, cluster.x, cluster.y)
  return members.map((i, slot) => spliceFeature(index, i, geometry, slot, members.length))
}

/**
 * Vector tile of one filter: layer `clusters` (total, a count per class, action = urgent + critical, worst, rank, mix) and layer `splices`
 * (feature id = splice id, class, rank, name, circuit, phase; across where the line runs east and west; slot and of where
 * several stand at one place). Every splice that passes
 * the filter is counted in exactly one tile of a zoom.
 */
export function spliceTileBytes(index: SpliceIndex, tile: TileAddress, filter: SpliceFilter): Uint8Array {
  const { z, x, y } = tile
  const ready = readyFilter(index, filter)
  const gathering = gatheringAt(z)
  const grid = countCells(index, ready, z, x, y, marginFor(gathering))
  const clusters: TileFeature[] = []
  const splices: TileFeature[] = []
  for (const cluster of gatherClusters(grid, gathering, z, x, y)) {
    if (cluster.total === 1) {
      const i = cluster.sample
      splices.push(spliceFeature(index, i, pointAt(tile, index.x[i]!, index.y[i]!), 0, 1))
    } else if (z >= FAN_FROM_ZOOM && cluster.total <= FAN_LIMIT) splices.push(...fan(index, ready, tile, cluster))
    else clusters.push(clusterFeature(tile, cluster))
  }
  return encodeTile({ clusters, splices })
}
