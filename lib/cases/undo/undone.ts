/** What an undo took away, and what is to follow. */
export interface Undone {
  readings: number
  removedSplices: { id: number; splice: string; class: string | null }[]
  /** Their condition is to be assessed anew. */
  spliceIds: number[]
  circuitIds: number[]
}
