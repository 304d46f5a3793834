const EDGE_PX = 48

export interface Room { top: number; right: number; bottom: number; left: number }

/**
 * How far from the edges of the map, CSS px, whatever is to be seen must stay, so that nothing of it lies under what is laid over the lower left corner:
 * the legend. It is avoided sideways or upwards, whichever leaves the larger part of the map; where neither leaves half of it, only the edges are kept.
 */
export function roomBeside(map: Pick<DOMRect, 'width' | 'height' | 'left' | 'bottom'>, over: Pick<DOMRect, 'right' | 'top' | 'width' | 'height'> | null): Room {
  const plain: Room = { top: EDGE_PX, right: EDGE_PX, bottom: EDGE_PX, left: EDGE_PX }
  if (!over || over.width === 0 || over.height === 0) return plain
  const left = Math.max(EDGE_PX, over.right - map.left + EDGE_PX / 2)
  const bottom = Math.max(EDGE_PX, map.bottom - over.top + EDGE_PX / 2)
  const [sideways, upwards] = [1 - left / map.width, 1 - bottom / map.height]
  if (Math.max(sideways, upwards) < 0.5) return plain
  return sideways >= upwards ? { ...plain, left } : { ...plain, bottom }
}

/** The same of a map on the screen. */
export const roomIn = (container: HTMLElement): Room =>
  roomBeside(container.getBoundingClientRect(), document.querySelector('[data-over-map]')?.getBoundingClientRect() ?? null)
