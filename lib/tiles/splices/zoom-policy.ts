/** Splice tiles are made down to here; further in the renderer enlarges them (2.4 mm a tile unit at the equator). */
export const SPLICE_MAX_ZOOM = 18

/** How far apart splices must lie to be drawn apart, in cells of 16 CSS px; 0: only what shares a cell is one. */
export function gatherRadiusCells(zoom: number): number {
  if (zoom <= 10) return 3
  if (zoom === 11) return 2
  return zoom === 12 ? 1 : 0
}

/** Up to so many splices at one place are drawn as a row of single marks: phases and subconductors of one fitting never part by zooming. */
export function fanLimit(zoom: number): number {
  if (zoom < 13) return 1
  if (zoom === 13) return 3
  return zoom < 16 ? 6 : 24
}
