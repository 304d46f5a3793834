import { CLASS_COUNT } from './splice-columns'

/** Points between two entries: small enough that what is left over at a range's ends costs little, large enough to cost little memory. */
export const BLOCK = 16

/**
 * Per class the number of splices and the sums of their positions in all points before each block of the Morton order. A range of any
 * length is then two look-ups and at most two part blocks, so that a tile over a whole utility costs no more than one over a valley.
 */
export interface RunningSums { count: Uint32Array; x: Float64Array; y: Float64Array }

export function runningSums(x: Uint32Array, y: Uint32Array, classNo: Uint8Array): RunningSums {
  const entries = (Math.floor(x.length / BLOCK) + 1) * CLASS_COUNT
  const sums: RunningSums = { count: new Uint32Array(entries), x: new Float64Array(entries), y: new Float64Array(entries) }
  for (let from = 0, at = 0; at + CLASS_COUNT < entries; from += BLOCK, at += CLASS_COUNT) {
    for (const column of [sums.count, sums.x, sums.y]) column.copyWithin(at + CLASS_COUNT, at, at + CLASS_COUNT)
    for (let i = from; i < from + BLOCK; i++) {
      const entry = at + CLASS_COUNT + classNo[i]!
      sums.count[entry]!++
      sums.x[entry]! += x[i]!
      sums.y[entry]! += y[i]!
    }
  }
  return sums
}
