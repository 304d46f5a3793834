/** Splice tiles are made down to here; further in the renderer enlarges them (2.4 mm a tile unit at the equator). */
export const SPLICE_MAX_ZOOM = 18

/** How far apart splices must lie to be drawn apart, in cells of 16 CSS px. */
export interface Gathering {
  /** Cells join the fullest cell within this; 0: only what shares a cell is one. */
  radiusCells: number
  /** Clusters nearer than this would overlap on screen and are joined once more. */
  apartCells: number
}

export function gatheringAt(zoom: number): Gathering {
  if (zoom <= 10) return { radiusCells: 3, apartCells: 2 }
  if (zoom === 11) return { radiusCells: 2, apartCells: 2 }
  if (zoom === 12) return { radiusCells: 1, apartCells: 1.5 }
  return { radiusCells: 0, apartCells: zoom < FAN_FROM_ZOOM ? 1.25 : 0 }
}

/**
 * From here splices at one place are drawn as a row of single marks: a cell is 13 m wide at 47 degrees, and phases and subconductors of
 * one fitting never part by zooming.
 */
export const FAN_FROM_ZOOM = 16
/** More than this at one place stay a cluster. */
export const FAN_LIMIT = 24
