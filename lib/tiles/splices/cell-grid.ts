import { WORLD } from './morton'
import type { ReadyFilter } from './match-filter'
import { CLASS_COUNT } from './splice-columns'
import { visitRect, type SpliceIndex } from './splice-index'

/** Cells across one tile; a cell is 16 CSS px wide. */
export const CELLS_PER_TILE = 32

/** Counts per cell for a tile and a margin of cells around it. */
export interface CellGrid {
  /** Cells across, margins included. */
  across: number
  marginCells: number
  /** World cell (at this zoom) of the grid's first column and row. */
  firstX: number
  firstY: number
  /** Filtered splices in the cell. */
  total: Uint32Array
  /** CLASS_COUNT numbers a cell. */
  perClass: Uint32Array
  /** Sums of world units: exact below 2,000,000 splices a cell, so that neighbouring tiles agree on every mean. */
  sumX: Float64Array
  sumY: Float64Array
  /** One point of the cell; the only one where total is 1. */
  sample: Int32Array
}

/** Counts the splices that pass the filter into the cells of tile z/x/y and `marginCells` beyond each edge. */
export function countCells(index: SpliceIndex, filter: ReadyFilter, z: number, x: number, y: number, marginCells: number): CellGrid {
  const across = CELLS_PER_TILE + 2 * marginCells
  const cell = WORLD / 2 ** z / CELLS_PER_TILE
  const firstX = x * CELLS_PER_TILE - marginCells
  const firstY = y * CELLS_PER_TILE - marginCells
  const cells = across * across
  const grid: CellGrid = {
    across, marginCells, firstX, firstY, total: new Uint32Array(cells), perClass: new Uint32Array(cells * CLASS_COUNT),
    sumX: new Float64Array(cells), sumY: new Float64Array(cells), sample: new Int32Array(cells),
  }
  const { total, perClass, sumX, sumY, sample } = grid
  const { groups, classes } = filter
  const rect = { fromX: firstX * cell, fromY: firstY * cell, toX: (firstX + across) * cell, toY: (firstY + across) * cell }
  visitRect(index, rect, (from, to, check) => {
    for (let i = from; i < to; i++) {
      const classNo = index.classNo[i]!
      if (!classes[classNo] || !groups[index.groupNo[i]!]) continue
      const px = index.x[i]!
      const py = index.y[i]!
      if (check && (px < rect.fromX || px >= rect.toX || py < rect.fromY || py >= rect.toY)) continue
      const c = (Math.floor(py / cell) - firstY) * across + Math.floor(px / cell) - firstX
      total[c]!++
      perClass[c * CLASS_COUNT + classNo]!++
      sumX[c]! += px
      sumY[c]! += py
      sample[c] = i
    }
  })
  return grid
}
