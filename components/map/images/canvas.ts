/** Images are drawn at twice their size, so that they are sharp on dense screens too. */
export const PIXEL_RATIO = 2

let kept: CanvasRenderingContext2D | null = null

/** One canvas for every drawing: a first view asks for hundreds, and making a canvas for each took longer than drawing on it. */
function cleanCanvas(widthPx: number, heightPx: number): CanvasRenderingContext2D {
  kept ??= document.createElement('canvas').getContext('2d', { willReadFrequently: true })
  if (!kept) throw new Error('This browser gives no 2D canvas, so the map has no marks.')
  // Setting a size empties the canvas and puts its state back, even where the size stays.
  kept.canvas.width = Math.max(kept.canvas.width, widthPx)
  kept.canvas.height = Math.max(kept.canvas.height, heightPx)
  return kept
}

/** Pixels of a drawing; `draw` works in CSS px with the origin in the middle. */
export function drawn(widthPx: number, heightPx: number, draw: (g: CanvasRenderingContext2D) => void): ImageData {
  const [width, height] = [Math.ceil(widthPx * PIXEL_RATIO), Math.ceil(heightPx * PIXEL_RATIO)]
  const g = cleanCanvas(width, height)
  g.scale(PIXEL_RATIO, PIXEL_RATIO)
  g.translate(widthPx / 2, heightPx / 2)
  g.lineJoin = 'round'
  draw(g)
  return g.getImageData(0, 0, width, height)
}
