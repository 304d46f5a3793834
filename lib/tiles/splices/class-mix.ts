const PARTS = 16

/**
 * Class shares in sixteenths, one base-36 digit a class in TILE_CLASSES order, summing to 16. A class that is present has at least one
 * part, so that one critical splice among thousands still shows. Few distinct values, so that a renderer can keep one picture for each.
 */
export function classMix(perClass: ArrayLike<number>): string {
  const counts = Array.from(perClass)
  const total = counts.reduce((sum, n) => sum + n, 0)
  const parts = counts.map((n) => (n === 0 ? 0 : Math.max(1, Math.round((n / total) * PARTS))))
  for (let over = parts.reduce((sum, n) => sum + n, 0) - PARTS; over !== 0; over -= Math.sign(over)) {
    // What rounding left over or short is taken from or given to the class it distorts least: the largest.
    const largest = parts.indexOf(Math.max(...parts))
    parts[largest] = (parts[largest] ?? 0) - Math.sign(over)
  }
  return parts.map((n) => n.toString(36)).join('')
}
