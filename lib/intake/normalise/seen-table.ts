const WORDS = 9

/**
 * Ids and contents of the readings of one file, 36 bytes each in one typed array, so that a file of any length
 * can be searched for repeats without holding its rows. Keys and contents are hashes of 32 hexadecimal digits.
 */
export class SeenTable {
  private slots = 1024
  private words = new Uint32Array(this.slots * WORDS)
  private count = 0
  private readonly key = new Uint32Array(4)
  private readonly content = new Uint32Array(4)

  /** Row in which the key was first seen and whether its content was the same; null, and remembered, where it is new. */
  see(key: string, content: string, row: number): { row: number; same: boolean } | null {
    if (this.count * 2 >= this.slots) this.grow()
    const k = hexWords(key, this.key)
    const c = hexWords(content, this.content)
    const at = this.find(this.words, this.slots, k)
    if (this.words[at + 8] !== 0) return { row: this.words[at + 8]!, same: c.every((word, i) => this.words[at + 4 + i] === word) }
    this.words.set(k, at)
    this.words.set(c, at + 4)
    this.words[at + 8] = row
    this.count++
    return null
  }

  private find(words: Uint32Array, slots: number, k: ArrayLike<number>): number {
    let slot = k[3]! & (slots - 1)
    for (;;) {
      const at = slot * WORDS
      if (words[at + 8] === 0) return at
      if (words[at] === k[0] && words[at + 1] === k[1] && words[at + 2] === k[2] && words[at + 3] === k[3]) return at
      slot = (slot + 1) & (slots - 1)
    }
  }

  private grow(): void {
    const slots = this.slots * 2
    const words = new Uint32Array(slots * WORDS)
    for (let from = 0; from < this.words.length; from += WORDS) {
      if (this.words[from + 8] === 0) continue
      words.set(this.words.subarray(from, from + WORDS), this.find(words, slots, this.words.subarray(from, from + 4)))
    }
    this.slots = slots
    this.words = words
  }
}

/** The first 32 hexadecimal digits, put into four words. */
function hexWords(hex: string, words: Uint32Array): Uint32Array {
  for (let at = 0; at < 32; at++) {
    const code = hex.charCodeAt(at)
    words[at >>> 3] = (words[at >>> 3]! << 4) | (code > 96 ? code - 87 : code - 48)
  }
  return words
}
