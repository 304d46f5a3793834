import { type Encoding, guessEncoding } from './encoding'
import { join, peek } from './peek'

export interface DecodedText {
  chunks: AsyncIterable<string>
  /** Sentences on how the bytes were understood; grows while the chunks are read. */
  notes: string[]
}

const HEAD_BYTES = 64 * 1024

/**
 * Bytes as text: UTF-8, UTF-16 by mark or by its zero bytes, and Windows-1252 where the bytes are no valid UTF-8.
 * @throws FileRefusal empty, not-text
 */
export async function decodeText(bytes: AsyncIterable<Uint8Array>): Promise<DecodedText> {
  const { head, all } = await peek(bytes, HEAD_BYTES)
  const guess = guessEncoding(head)
  const notes = guess.note ? [guess.note] : []
  const body = dropBytes(all, guess.bomBytes)
  const chunks = guess.encoding === 'utf-8' ? decodeUtf8(body, notes) : decodeAs(body, guess.encoding)
  return { chunks, notes }
}

async function* dropBytes(bytes: AsyncIterable<Uint8Array>, count: number): AsyncGenerator<Uint8Array> {
  let left = count
  for await (const chunk of bytes) {
    const skipped = Math.min(left, chunk.length)
    left -= skipped
    if (chunk.length > skipped) yield skipped > 0 ? chunk.subarray(skipped) : chunk
  }
}

async function* decodeAs(bytes: AsyncIterable<Uint8Array>, encoding: Encoding): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding, { ignoreBOM: true })
  for await (const chunk of bytes) yield decoder.decode(chunk, { stream: true })
  const rest = decoder.decode()
  if (rest) yield rest
}

/** Strict until a byte is wrong; then one decision for the rest of the file, told in a note. */
async function* decodeUtf8(bytes: AsyncIterable<Uint8Array>, notes: string[]): AsyncGenerator<string> {
  const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })
  let lenient: TextDecoder | null = null
  let sawUtf8 = false
  let carried: Uint8Array = new Uint8Array(0)
  for await (const next of bytes) {
    if (lenient) {
      yield lenient.decode(next, { stream: true })
      continue
    }
    const chunk = carried.length > 0 ? join([carried, next]) : next
    const whole = chunk.length - unfinishedBytes(chunk)
    const text = tryDecode(strict, chunk.subarray(0, whole))
    if (text === null) {
      lenient = fallBack(chunk, sawUtf8, notes)
      yield lenient.decode(chunk, { stream: true })
      continue
    }
    sawUtf8 ||= text.length !== whole
    carried = chunk.slice(whole)
    yield text
  }
  if (lenient) yield lenient.decode()
  else if (carried.length > 0) yield fallBack(carried, sawUtf8, notes).decode(carried)
}

function tryDecode(decoder: TextDecoder, bytes: Uint8Array): string | null {
  try {
    return decoder.decode(bytes)
  } catch {
    return null
  }
}

/** Bytes at the end that begin a sequence and do not finish it: at most three. */
function unfinishedBytes(bytes: Uint8Array): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back++) {
    const byte = bytes[bytes.length - back]!
    if (byte < 0x80) return 0
    if (byte >= 0xc0) return back < (byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2) ? back : 0
  }
  return 0
}

/** Damaged UTF-8 where more letters came out whole than broken; else the western code page of old exports. */
function fallBack(chunk: Uint8Array, sawUtf8: boolean, notes: string[]): TextDecoder {
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(chunk)
  let broken = 0
  let whole = 0
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at)
    if (code === 0xfffd) broken++
    else if (code > 0x7f) whole++
  }
  if (sawUtf8 || whole > broken) {
    notes.push('The file is UTF-8 with damaged characters, shown as \uFFFD: export it again if names matter.')
    return new TextDecoder('utf-8', { ignoreBOM: true })
  }
  notes.push('Read as Windows-1252, because the bytes are not valid UTF-8: check names with accents and the signs µ and °.')
  return new TextDecoder('windows-1252')
}
