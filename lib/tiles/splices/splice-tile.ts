import type { SpliceFilter } from '@/lib/contract/filter'
import { encodeTile, EXTENT, type TileFeature, type TilePoint } from '../encode'
import { TRUE_FROM_ZOOM } from '../circuits/true-from-zoom'
import { countCells } from './cell-grid'
import { classMix } from './class-mix'
import { fan, isAcross, type Fanned } from './fan'
import { gatherClusters, marginFor, type Cluster } from './gather'
import { readyFilter } from './match-filter'
import { WORLD } from './morton'
import { CLASS_COUNT, TILE_CLASSES, UNKNOWN } from './splice-columns'
import { isWorse, type SpliceIndex } from './splice-index'
import { FAN_FROM_ZOOM, FAN_LIMIT, gatheringAt } from './zoom-policy'

export interface TileAddress { z: number; x: number; y: number }

/** Drawing order: unknown below everything measured. */
const rankOf = (classNo: number): number => (classNo === UNKNOWN ? 0 : classNo + 1)

function pointAt(tile: TileAddress, x: number, y: number): [number, number][] {
  const size = WORLD / 2 ** tile.z
  const local = (world: number, t: number) => Math.max(0, Math.min(EXTENT - 1, Math.floor(((world - t * size) / size) * EXTENT)))
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
  const tags = { total: cluster.total, ...counts, worst: TILE_CLASSES[worst], rank: rankOf(worst), mix: classMix(cluster.perClass) }
  return { type: 1, geometry: pointAt(tile, cluster.x, cluster.y), tags }
}

/** Hundredths are a fifth of a pixel at most; a zero is left out. */
const hundredths = (value: number): number | null => Math.round(value * 100) / 100 || null

/** `steps`: marks beside its place in a row. Where lines are drawn by lanes the mark goes with its line. */
function spliceFeature(index: SpliceIndex, tile: TileAddress, { i, x, y, steps }: Fanned, today: number): TilePoint {
  const classNo = index.classNo[i] ?? UNKNOWN
  const group = index.groups[index.groupNo[i] ?? 0]
  const side = index.sides[index.sideNo[i] ?? 0]
  const isTrue = tile.z >= TRUE_FROM_ZOOM
  const [laneX = 0, laneY = 0] = (isTrue ? side?.byLaneLeft : side?.byLane) ?? []
  const [centreX = 0, centreY = 0] = (isTrue ? undefined : side?.toCentre) ?? []
  const tags = {
    class: TILE_CLASSES[classNo], past: (index.renewByDay[i] ?? today) < today ? 1 : null, rank: rankOf(classNo), name: index.nameOf(i), circuit: group?.circuitId, phase: group?.phase,
    across: isAcross(index.axisDeg[i] ?? 0) ? 1 : null, lane_x: hundredths(laneX), lane_y: hundredths(laneY),
    step_x: hundredths(steps[0]), step_y: hundredths(steps[1]),
  }
  return { type: 1, id: index.id[i], geometry: pointAt(tile, x + centreX, y + centreY), tags }
}

/**
 * Vector tile of one filter: layer `clusters` (total, a count per class, worst, rank, mix) and layer `splices`
 * (feature id = splice id, class, past where that class says how it was and not how it is, rank, name, circuit, phase; across where the line runs east and west; lane_x, lane_y: how many lanes
 * right and down its line is drawn of its place; step_x, step_y: how many marks beside it stands where several share a place). Every splice
 * that passes the filter is counted in exactly one tile of a zoom.
 * @param picked 1 where the splice of that row passes by what the store alone knows; null: all do
 * @param today days since 1970 UTC
 */
export function spliceTileBytes(index: SpliceIndex, tile: TileAddress, filter: SpliceFilter, today: number, picked: Uint8Array | null = null): Uint8Array {
  const { z, x, y } = tile
  const ready = readyFilter(index, filter, picked)
  const gathering = gatheringAt(z)
  const grid = countCells(index, ready, z, x, y, marginFor(gathering))
  const clusters: TileFeature[] = []
  const splices: TileFeature[] = []
  for (const cluster of gatherClusters(grid, gathering, z, x, y)) {
    if (cluster.total === 1) {
      const i = cluster.sample
      splices.push(spliceFeature(index, tile, { i, x: index.x[i]!, y: index.y[i]!, steps: [0, 0] }, today))
    } else if (z >= FAN_FROM_ZOOM && cluster.total <= FAN_LIMIT) {
      splices.push(...fan(index, ready, z, cluster).map((one) => spliceFeature(index, tile, one, today)))
    } else clusters.push(clusterFeature(tile, cluster))
  }
  return encodeTile({ clusters, splices })
}
