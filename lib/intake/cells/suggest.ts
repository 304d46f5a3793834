/** Edits (insert, delete, replace) between two short words; more than `limit` reads as limit + 1. */
export function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1
  let above = Array.from({ length: b.length + 1 }, (_, at) => at)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const replaced = above[j - 1]! + (a.charCodeAt(i - 1) === b.charCodeAt(j - 1) ? 0 : 1)
      row.push(Math.min(replaced, above[j]! + 1, row[j - 1]! + 1))
    }
    above = row
  }
  return Math.min(above[b.length]!, limit + 1)
}

/**
 * What somebody meant who wrote a word within two edits (one for short words) of a known one; null where no word or
 * words of several meanings are as near.
 * @param meanings word → what it means
 */
export function suggest(written: string, meanings: ReadonlyMap<string, string>): string | null {
  if (written.length > 40) return null
  let bestDistance = (written.length < 5 ? 1 : 2) + 1
  let best = new Set<string>()
  for (const [word, meaning] of meanings) {
    const distance = editDistance(written, word, bestDistance)
    if (distance > bestDistance - (best.size === 0 ? 1 : 0)) continue
    if (distance < bestDistance) best = new Set()
    bestDistance = distance
    best.add(meaning)
  }
  return best.size === 1 ? [...best][0]! : null
}
