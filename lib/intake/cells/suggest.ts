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

/** The one word within two edits (one for short words) of what was written; null where none or several are as near. */
export function suggest(written: string, words: Iterable<string>): string | null {
  if (written.length > 40) return null
  const limit = written.length < 5 ? 1 : 2
  let best: string | null = null
  let bestDistance = limit + 1
  let tied = false
  for (const word of words) {
    const distance = editDistance(written, word, limit)
    if (distance < bestDistance) [best, bestDistance, tied] = [word, distance, false]
    else if (distance === bestDistance) tied = true
  }
  return tied ? null : best
}
