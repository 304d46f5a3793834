import { binaryRefusal, nulRefusal } from '../guards/binary'
import { FileRefusal } from '../types'

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252'

/** What the first bytes say, with the sentence for the report. UTF-8 is a guess until the last byte. */
export interface EncodingGuess {
  encoding: Encoding
  bomBytes: number
  note: string | null
}

const startsWith = (head: Uint8Array, ...bytes: number[]): boolean => bytes.every((byte, at) => head[at] === byte)

/**
 * Encoding by byte order mark, else by where zero bytes stand: UTF-16 text of western letters has one in every pair.
 * @throws FileRefusal empty, not-text
 */
export function guessEncoding(head: Uint8Array): EncodingGuess {
  if (head.length === 0) throw new FileRefusal('empty', 'The file is empty.', 'Check the export, then import the file again.')
  if (startsWith(head, 0xff, 0xfe, 0, 0) || startsWith(head, 0, 0, 0xfe, 0xff)) {
    throw new FileRefusal('not-text', 'The file is encoded in UTF-32, which is not read.', 'Save it as UTF-8.')
  }
  if (startsWith(head, 0xef, 0xbb, 0xbf)) return { encoding: 'utf-8', bomBytes: 3, note: null }
  if (startsWith(head, 0xff, 0xfe)) return { encoding: 'utf-16le', bomBytes: 2, note: 'Read as UTF-16, little endian.' }
  if (startsWith(head, 0xfe, 0xff)) return { encoding: 'utf-16be', bomBytes: 2, note: 'Read as UTF-16, big endian.' }
  const refusal = binaryRefusal(head)
  if (refusal) throw refusal
  return guessByZeros(head)
}

function guessByZeros(head: Uint8Array): EncodingGuess {
  const zeros = [0, 0]
  for (let at = 0; at < head.length; at++) if (head[at] === 0) zeros[at & 1]!++
  const [even = 0, odd = 0] = zeros
  if (even + odd === 0) return { encoding: 'utf-8', bomBytes: 0, note: null }
  const pairs = head.length / 2
  if (odd > 0.4 * pairs && even < 0.05 * pairs) {
    return { encoding: 'utf-16le', bomBytes: 0, note: 'Read as UTF-16, little endian, although it has no byte order mark.' }
  }
  if (even > 0.4 * pairs && odd < 0.05 * pairs) {
    return { encoding: 'utf-16be', bomBytes: 0, note: 'Read as UTF-16, big endian, although it has no byte order mark.' }
  }
  throw nulRefusal()
}
