import type { ExpressionSpecification } from 'maplibre-gl'

/** Circuits on the same structures lie side by side: px from lane to lane by whole zoom; the last one holds from there on. */
const LANE_PX = [1.8, 1.8, 1.8, 1.8, 1.8, 2, 2.4, 3, 3.6, 4.2, 4.8, 5.4, 6, 7, 8, 10, 14, 19, 26] as const
/** Marks that share a place stand in a row, px from mark to mark. */
const STEP_PX = 19
/** Farther than anything is drawn beside its place. */
const REACH_PX = 1000

const lanePx = (zoom: number): number => LANE_PX[Math.max(0, Math.min(LANE_PX.length - 1, Math.floor(zoom)))] ?? 0

/** An expression for each whole zoom. Steps rather than slopes, because a mark's offset is fixed while its tile is shown. */
function byWholeZoom(of: (zoom: number) => unknown): ExpressionSpecification {
  const steps = LANE_PX.flatMap((_, zoom) => (zoom === 0 ? [of(0)] : [zoom, of(zoom)]))
  return ['step', ['zoom'], ...steps] as unknown as ExpressionSpecification
}

const zeroIfNone = (property: string) => ['coalesce', ['get', property], 0] as const

/** Line offset by lane; the same whole-zoom steps as the marks', so that these stay on their lines. */
export const laneOffset = byWholeZoom((zoom) => ['*', lanePx(zoom), zeroIfNone('lane')])

/** Px between the lines of the phases of one circuit, by whole zoom. */
const phasePx = (zoom: number): number => (zoom < 15 ? 3 : zoom < 16 ? 3.6 : zoom < 17 ? 4.6 : 6.5)

/** The same with the phases of a circuit beside each other, by their place among those drawn. */
export const phaseOffset = byWholeZoom((zoom) => ['+', ['*', lanePx(zoom), zeroIfNone('lane')], ['*', phasePx(zoom), zeroIfNone('nth')]])

/** A pair of numbers out of two expressions, which the style language has no word for: between four corners. */
function pair(x: unknown, y: unknown): unknown {
  const atY = (down: number) => ['interpolate', ['linear'], x, -REACH_PX, ['literal', [-REACH_PX, down]], REACH_PX, ['literal', [REACH_PX, down]]]
  return ['interpolate', ['linear'], y, -REACH_PX, atY(-REACH_PX), REACH_PX, atY(REACH_PX)]
}

/** Icon offset of a mark: its line's lane and its place in a row. `sizeAt` is the icon's size, which the renderer multiplies it by. */
export const markOffset = (sizeAt: (zoom: number) => number): ExpressionSpecification => byWholeZoom((zoom) => {
  const px = (axis: 'x' | 'y') => [
    '/', ['+', ['*', lanePx(zoom), zeroIfNone(`lane_${axis}`)], ['*', STEP_PX, zeroIfNone(`step_${axis}`)]], sizeAt(zoom),
  ]
  return pair(px('x'), px('y'))
})

/** How far from its place the mark of a tile's feature is drawn at a zoom, CSS px right and down. */
export function drawnAside(properties: Record<string, unknown>, zoom: number): [right: number, down: number] {
  const along = (axis: 'x' | 'y') =>
    lanePx(zoom) * (Number(properties[`lane_${axis}`]) || 0) + STEP_PX * (Number(properties[`step_${axis}`]) || 0)
  return [along('x'), along('y')]
}

/** Px square to a line, to its right, at which the line of a lane is drawn. */
export const laneAsidePx = (lane: number, zoom: number): number => lane * lanePx(zoom)
