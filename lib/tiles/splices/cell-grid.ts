import type { ReadyFilter } from './match-filter'
import { WORLD } from './morton'
import { BLOCK } from './running-sums'
import { CLASS_COUNT } from './splice-columns'
import { visitRect, type SpliceIndex } from './splice-index'

/** Cells across one tile as a power of two: 32 cells, each 16 CSS px wide. */
const CELL_LEVELS = 5
export const CELLS_PER_TILE = 2 ** CELL_LEVELS

/** Counts per cell for a tile and a margin of cells around it. */
export interface CellGrid {
  /** Cells across, margins included. */
  across: number
  /** World cell (at this zoom) of the grid's first column and row. */
  firstX: number
  firstY: number
  /** Filtered splices in the cell. */
  total: Uint32Array
  /** CLASS_COUNT numbers a cell. */
  perClass: Uint32Array
  /** Sums of world units: exact below 2,000,000 splices, so that neighbouring tiles agree on every mean. */
  sumX: Float64Array
  sumY: Float64Array
  /** The only point of a cell whose total is 1. */
  sample: Int32Array
}

function emptyGrid(z: number, x: number, y: number, marginCells: number): CellGrid {
  const across = CELLS_PER_TILE + 2 * marginCells
  const cells = across * across
  return {
    across, firstX: x * CELLS_PER_TILE - marginCells, firstY: y * CELLS_PER_TILE - marginCells, total: new Uint32Array(cells),
    perClass: new Uint32Array(cells * CLASS_COUNT), sumX: new Float64Array(cells), sumY: new Float64Array(cells),
    sample: new Int32Array(cells),
  }
}

/** The point of a class within blocks that hold one of it. */
function onlyOfClass(index: SpliceIndex, classNo: number, fromBlock: number, toBlock: number): number {
  const { count } = index.sums
  const after = count[toBlock * CLASS_COUNT + classNo]!
  let [low, high] = [fromBlock, toBlock - 1]
  while (low < high) {
    const middle = (low + high + 1) >>> 1
    if (count[middle * CLASS_COUNT + classNo]! < after) low = middle
    else high = middle - 1
  }
  let i = (low + 1) * BLOCK - 1
  while (index.classNo[i] !== classNo) i--
  return i
}

/** Counts the splices that pass the filter into the cells of tile z/x/y and `marginCells` beyond each edge. */
export function countCells(index: SpliceIndex, filter: ReadyFilter, z: number, x: number, y: number, marginCells: number): CellGrid {
  const grid = emptyGrid(z, x, y, marginCells)
  const { across, firstX, firstY, total, perClass, sumX, sumY, sample } = grid
  const { groups, classes, picked, everyGroup } = filter
  const { x: xs, y: ys, classNo: classNos, groupNo: groupNos, sums } = index
  const cellZoom = z + CELL_LEVELS
  const shift = 32 - cellZoom
  const size = WORLD / 2 ** cellZoom
  const rect = { fromX: firstX * size, fromY: firstY * size, toX: (firstX + across) * size, toY: (firstY + across) * size }

  const addPoints = (from: number, to: number, inside: boolean): void => {
    for (let i = from; i < to; i++) {
      const classNo = classNos[i]!
      if (!classes[classNo] || (!everyGroup && (!groups[groupNos[i]!] || (picked !== null && !picked[i])))) continue
      const px = xs[i]!
      const py = ys[i]!
      if (!inside && (px < rect.fromX || px >= rect.toX || py < rect.fromY || py >= rect.toY)) continue
      const cell = ((py >>> shift) - firstY) * across + (px >>> shift) - firstX
      total[cell]!++
      perClass[cell * CLASS_COUNT + classNo]!++
      sumX[cell]! += px
      sumY[cell]! += py
      sample[cell] = i
    }
  }
  // Of points known to share a cell the sums are kept apart until the end: that is half the work.
  const addToCell = (cell: number, from: number, to: number): void => {
    let n = 0
    let x = 0
    let y = 0
    for (let i = from; i < to; i++) {
      const classNo = classNos[i]!
      if (!classes[classNo]) continue
      n++
      x += xs[i]!
      y += ys[i]!
      perClass[cell * CLASS_COUNT + classNo]!++
      sample[cell] = i
    }
    total[cell]! += n
    sumX[cell]! += x
    sumY[cell]! += y
  }
  const addBlocks = (cell: number, fromBlock: number, toBlock: number): void => {
    for (let c = 0; c < CLASS_COUNT; c++) {
      if (!classes[c]) continue
      const [a, b] = [fromBlock * CLASS_COUNT + c, toBlock * CLASS_COUNT + c]
      const n = sums.count[b]! - sums.count[a]!
      total[cell]! += n
      perClass[cell * CLASS_COUNT + c]! += n
      if (n === 1) sample[cell] = onlyOfClass(index, c, fromBlock, toBlock)
      sumX[cell]! += sums.x[b]! - sums.x[a]!
      sumY[cell]! += sums.y[b]! - sums.y[a]!
    }
  }
  if (!everyGroup) {
    visitRect(index, rect, addPoints)
    return grid
  }
  visitRect(index, rect, (from, to, inside, nodeZoom) => {
    const [fromBlock, toBlock] = [Math.ceil(from / BLOCK), Math.floor(to / BLOCK)]
    // A range that may spread over several cells has no place of its own for its sums.
    if (!inside || nodeZoom < cellZoom || fromBlock >= toBlock) return addPoints(from, to, inside)
    const cell = ((ys[from]! >>> shift) - firstY) * across + (xs[from]! >>> shift) - firstX
    addToCell(cell, from, fromBlock * BLOCK)
    addBlocks(cell, fromBlock, toBlock)
    addToCell(cell, toBlock * BLOCK, to)
  }, cellZoom)
  return grid
}
