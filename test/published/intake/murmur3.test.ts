import { describe, expect, it } from 'vitest'
import { hash128 } from '@/lib/intake/index'
import { murmur128 } from '@/lib/intake/hash'

/**
 * Verification value of MurmurHash3_x86_128 in SMHasher (A. Appleby): the hash, seed 0, of the hashes of the keys {}, {0}, {0, 1}, …
 * {0 … 254} with the seeds 256 - length; its first word. Status: memory, and reproduced by the test.
 */
const SMHASHER_X86_128 = 0xb3ece62a

const littleEndian = (words: readonly number[]): number[] => words.flatMap(
  (word) => [word & 255, (word >>> 8) & 255, (word >>> 16) & 255, word >>> 24]
)

describe('MurmurHash3_x86_128', () => {
  it('gives SMHasher\'s verification value', () => {
    const key = Uint8Array.from({ length: 256 }, (_, at) => at)
    const hashes = Uint8Array.from({ length: 256 }, (_, at) => at).reduce<number[]>((all, length) => [
      ...all, ...littleEndian(murmur128(key, length, 256 - length)),
    ], [])
    expect(murmur128(Uint8Array.from(hashes), hashes.length)[0]).toBe(SMHASHER_X86_128)
  })

  it('prints 32 digits, and others for any other text', () => {
    const seen = new Set(['', 'a', 'b', 'ab', 'ä', 'a\u0000', 'x'.repeat(10_000)].map(hash128))
    expect(seen.size).toBe(7)
    for (const hash of seen) expect(hash).toMatch(/^[0-9a-f]{32}$/)
  })
})
