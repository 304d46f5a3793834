import type { Network } from '../network/network'
import type { PlacingOptions, PointToPlace } from '../types'
import type { SpliceChooser } from './choose-splice'
import type { SpliceTable } from './splice-table'

/** What one run of placing is given: every step reads it, none changes it. */
export interface Given {
  network: Network
  points: readonly PointToPlace[]
  options: PlacingOptions
  splices: SpliceTable
  chooser: SpliceChooser
  /** Number of each reading's pass. */
  passes: Int32Array
}
