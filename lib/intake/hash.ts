const encoder = new TextEncoder()
let buffer = new Uint8Array(4096)

const rotate = (value: number, by: number): number => (value << by) | (value >>> (32 - by))

function finalise(hash: number): number {
  let h = hash ^ (hash >>> 16)
  h = Math.imul(h, 0x85ebca6b)
  h ^= h >>> 13
  h = Math.imul(h, 0xc2b2ae35)
  return h ^ (h >>> 16)
}

/**
 * MurmurHash3_x86_128 (A. Appleby, public domain) of bytes, as four 32-bit words.
 * Even enough to tell millions of readings apart; no defence against somebody who seeks collisions, where SHA-256 is to be passed in.
 */
export function murmur128(bytes: Uint8Array, length: number, seed = 0): [number, number, number, number] {
  const C1 = 0x239b961b, C2 = 0xab0e9789, C3 = 0x38b34ae5, C4 = 0xa1e38b93
  let h1 = seed, h2 = seed, h3 = seed, h4 = seed
  const blocks = length >>> 4
  const word = (at: number): number => bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24)
  for (let block = 0; block < blocks; block++) {
    const at = block << 4
    h1 ^= Math.imul(rotate(Math.imul(word(at), C1), 15), C2)
    h1 = (Math.imul((rotate(h1, 19) + h2) | 0, 5) + 0x561ccd1b) | 0
    h2 ^= Math.imul(rotate(Math.imul(word(at + 4), C2), 16), C3)
    h2 = (Math.imul((rotate(h2, 17) + h3) | 0, 5) + 0x0bcaa747) | 0
    h3 ^= Math.imul(rotate(Math.imul(word(at + 8), C3), 17), C4)
    h3 = (Math.imul((rotate(h3, 15) + h4) | 0, 5) + 0x96cd1c35) | 0
    h4 ^= Math.imul(rotate(Math.imul(word(at + 12), C4), 18), C1)
    h4 = (Math.imul((rotate(h4, 13) + h1) | 0, 5) + 0x32ac3b17) | 0
  }
  const tail = blocks << 4
  const k = [0, 0, 0, 0]
  for (let at = 0; at < (length & 15); at++) k[at >>> 2]! |= bytes[tail + at]! << ((at & 3) * 8)
  h4 ^= Math.imul(rotate(Math.imul(k[3]!, C4), 18), C1)
  h3 ^= Math.imul(rotate(Math.imul(k[2]!, C3), 17), C4)
  h2 ^= Math.imul(rotate(Math.imul(k[1]!, C2), 16), C3)
  h1 ^= Math.imul(rotate(Math.imul(k[0]!, C1), 15), C2)
  h1 ^= length; h2 ^= length; h3 ^= length; h4 ^= length
  h1 = (h1 + h2 + h3 + h4) | 0
  h2 = (h2 + h1) | 0; h3 = (h3 + h1) | 0; h4 = (h4 + h1) | 0
  h1 = finalise(h1); h2 = finalise(h2); h3 = finalise(h3); h4 = finalise(h4)
  h1 = (h1 + h2 + h3 + h4) | 0
  h2 = (h2 + h1) | 0; h3 = (h3 + h1) | 0; h4 = (h4 + h1) | 0
  return [h1 >>> 0, h2 >>> 0, h3 >>> 0, h4 >>> 0]
}

/** 32 hexadecimal digits for a text: names headers, and contents where nobody hostile chooses them. */
export function hash128(text: string): string {
  if (buffer.length < text.length * 3) buffer = new Uint8Array(text.length * 3)
  const { written } = encoder.encodeInto(text, buffer)
  return murmur128(buffer, written).map((word) => word.toString(16).padStart(8, '0')).join('')
}
