/** Images are drawn at twice their size, so that they are sharp on dense screens too. */
export const PIXEL_RATIO = 2

/** Pixels of a drawing; `draw` works in CSS px with the origin in the middle. */
export function drawn(widthPx: number, heightPx: number, draw: (g: CanvasRenderingContext2D) => void): ImageData {
  const canvas = document.createElement('canvas')
  canvas.width = Math.ceil(widthPx * PIXEL_RATIO)
  canvas.height = Math.ceil(heightPx * PIXEL_RATIO)
  const g = canvas.getContext('2d', { willReadFrequently: true })
  if (!g) throw new Error('This browser gives no 2D canvas, so the map has no marks.')
  g.scale(PIXEL_RATIO, PIXEL_RATIO)
  g.translate(widthPx / 2, heightPx / 2)
  g.lineJoin = 'round'
  draw(g)
  return g.getImageData(0, 0, canvas.width, canvas.height)
}
