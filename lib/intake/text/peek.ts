/** First bytes of a stream, and the stream again from its beginning. */
export async function peek(bytes: AsyncIterable<Uint8Array>, wanted: number): Promise<{
  head: Uint8Array; all: AsyncIterable<Uint8Array>,
}> {
  const iterator = bytes[Symbol.asyncIterator]()
  const taken: Uint8Array[] = []
  let length = 0
  while (length < wanted) {
    const next = await iterator.next()
    if (next.done) break
    if (next.value.length === 0) continue
    taken.push(next.value)
    length += next.value.length
  }
  const start = join(taken)
  return { head: start.subarray(0, wanted), all: replay(start, iterator) }
}

/** One array of bytes out of several, without copying where there is but one. */
export function join(parts: readonly Uint8Array[]): Uint8Array {
  if (parts.length === 1 && parts[0]) return parts[0]
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0))
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return whole
}

/** The start comes in one piece, so that what is decided by it does not depend on how the bytes arrived. */
async function* replay(start: Uint8Array, iterator: AsyncIterator<Uint8Array>): AsyncGenerator<Uint8Array> {
  try {
    if (start.length > 0) yield start
    for (let next = await iterator.next(); !next.done; next = await iterator.next()) yield next.value
  } finally {
    await iterator.return?.()
  }
}
