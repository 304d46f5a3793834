const encoder = new TextEncoder()
let buffer = new Uint8Array(4096)

function rotate(value: number, by: number): number {
  return (value << by) | (value >>> (32 - by))
}

function finalise(hash: number): number {
  let h = hash ^ (hash >>> 16)
  h = Math.imul(h, 0x85ebca6b)
  h ^= h >>> 13
  h = Math.imul(h, 0xc2b2ae35)
  return h ^ (h >>> 16)
}

function word(bytes: Uint8Array, at: number): number {
  return bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24)
}

/** A word of which only the bytes before `length` exist. */
function lastWord(bytes: Uint8Array, at: number, length: number): number {
  let value = 0
  for (let byte = Math.min(at + 4, length) - 1; byte >= at; byte--) value = (value << 8) | bytes[byte]!
  return value
}

/**
 * MurmurHash3_x86_128 (A. Appleby, public domain) of bytes, as four 32-bit words.
 * Even enough to tell millions of readings apart; no defence against somebody who seeks collisions, where SHA-256 is to be passed in.
 */
export function murmur128(bytes: Uint8Array, length: number, seed = 0): [number, number, number, number] {
  const C1 = 0x239b961b, C2 = 0xab0e9789, C3 = 0x38b34ae5, C4 = 0xa1e38b93
  let h1 = seed, h2 = seed, h3 = seed, h4 = seed
  const blocks = length >>> 4
  for (let block = 0; block < blocks; block++) {
    const at = block << 4
    h1 ^= Math.imul(rotate(Math.imul(word(bytes, at), C1), 15), C2)
    h1 = (Math.imul((rotate(h1, 19) + h2) | 0, 5) + 0x561ccd1b) | 0
    h2 ^= Math.imul(rotate(Math.imul(word(bytes, at + 4), C2), 16), C3)
    h2 = (Math.imul((rotate(h2, 17) + h3) | 0, 5) + 0x0bcaa747) | 0
    h3 ^= Math.imul(rotate(Math.imul(word(bytes, at + 8), C3), 17), C4)
    h3 = (Math.imul((rotate(h3, 15) + h4) | 0, 5) + 0x96cd1c35) | 0
    h4 ^= Math.imul(rotate(Math.imul(word(bytes, at + 12), C4), 18), C1)
    h4 = (Math.imul((rotate(h4, 13) + h1) | 0, 5) + 0x32ac3b17) | 0
  }
  const tail = blocks << 4
  h4 ^= Math.imul(rotate(Math.imul(lastWord(bytes, tail + 12, length), C4), 18), C1)
  h3 ^= Math.imul(rotate(Math.imul(lastWord(bytes, tail + 8, length), C3), 17), C4)
  h2 ^= Math.imul(rotate(Math.imul(lastWord(bytes, tail + 4, length), C2), 16), C3)
  h1 ^= Math.imul(rotate(Math.imul(lastWord(bytes, tail, length), C1), 15), C2)
  h1 ^= length; h2 ^= length; h3 ^= length; h4 ^= length
  h1 = (h1 + h2 + h3 + h4) | 0
  h2 = (h2 + h1) | 0; h3 = (h3 + h1) | 0; h4 = (h4 + h1) | 0
  h1 = finalise(h1); h2 = finalise(h2); h3 = finalise(h3); h4 = finalise(h4)
  h1 = (h1 + h2 + h3 + h4) | 0
  h2 = (h2 + h1) | 0; h3 = (h3 + h1) | 0; h4 = (h4 + h1) | 0
  return [h1 >>> 0, h2 >>> 0, h3 >>> 0, h4 >>> 0]
}

const DIGITS = 8
const codes = new Array<number>(4 * DIGITS).fill(0)

/** In one piece: strings put together from parts cost more than the hash. */
function hex(words: readonly number[]): string {
  for (let at = 0; at < codes.length; at++) {
    const digit = (words[at >>> 3]! >>> (28 - 4 * (at & 7))) & 15
    codes[at] = digit < 10 ? 48 + digit : 87 + digit
  }
  return String.fromCharCode.apply(null, codes)
}

/** 32 hexadecimal digits for a text, or for bytes: names headers, and contents where nobody hostile chooses them. */
export function hash128(content: string | Uint8Array): string {
  if (typeof content !== 'string') return hex(murmur128(content, content.length))
  if (buffer.length < content.length * 3) buffer = new Uint8Array(content.length * 3)
  const { written } = encoder.encodeInto(content, buffer)
  return hex(murmur128(buffer, written))
}
