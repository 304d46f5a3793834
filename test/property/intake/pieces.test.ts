import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { csvRecords, recordsOfText } from '@/lib/intake/text/csv-records'
import { decodeText } from '@/lib/intake/text/decode'
import { JsonElements } from '@/lib/intake/text/json-elements'
import { bytesOf } from '@/test/fixtures/intake/read-file'

/** How bytes happen to arrive must not be seen in what is read. */
function piecesOf(text: string, lengths: readonly number[]): string[] {
  const pieces: string[] = []
  for (let at = 0, i = 0; at < text.length; i++) {
    const length = lengths[i % lengths.length]!
    pieces.push(text.slice(at, at + length))
    at += length
  }
  return pieces
}

const lengths = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 10 })

async function* streamOf(pieces: readonly string[]): AsyncGenerator<string> {
  yield* pieces
}

describe('CSV records', () => {
  const text = fc.array(
    fc.constantFrom('a', '1', ',', '"', '""', '\n', '\r\n', ' ', 'ä', '😀', ',"', '",'), { maxLength: 200 }
  ).map((parts) => parts.join(''))

  it('are the same from a whole text and from any pieces of it', async () => {
    await fc.assert(fc.asyncProperty(text, lengths, async (content, each) => {
      const records = []
      for await (const batch of csvRecords(streamOf(piecesOf(content, each)), ',', [])) records.push(...batch)
      expect(records).toEqual(recordsOfText(content, ','))
    }), { numRuns: 1000 })
  })

  it('lose no line: their texts joined are the text', () => {
    fc.assert(fc.property(text, (content) => {
      const joined = recordsOfText(content, ',').map((record) => record.raw).join('\n')
      expect(joined.replaceAll('\r\n', '\n')).toBe(content.replaceAll('\r\n', '\n').replace(/\n$/, ''))
    }), { numRuns: 1000 })
  })
})

describe('JSON elements', () => {
  const value = fc.json({ maxDepth: 4 })
  const readAll = (pieces: readonly string[]): string[] => {
    const elements = new JsonElements()
    const found = pieces.flatMap((piece) => elements.push(piece).map((element) => element.text))
    elements.end()
    return found
  }

  it('are the members of "features", whatever they hold and however they arrive', () => {
    fc.assert(fc.property(fc.array(value, { maxLength: 5 }), value, value, lengths, (features, before, after, each) => {
      const text = `\uFEFF {"a":${before}, "features" : [ ${features.join(' , ')}\n] ,"z":${after}}\n`
      expect(readAll(piecesOf(text, each))).toEqual(features)
      expect(readAll([text])).toEqual(features)
    }), { numRuns: 500 })
  })

  it('are the root where it has no features', () => {
    fc.assert(fc.property(fc.dictionary(fc.string().filter((key) => key !== 'features'), fc.jsonValue()), lengths, (root, each) => {
      const text = JSON.stringify(root)
      expect(readAll(piecesOf(`${text}\n`, each))).toEqual([text])
    }), { numRuns: 300 })
  })

  it('that are cut off are refused, wherever the cut is', () => {
    const text = JSON.stringify({ type: 'FeatureCollection', features: [{ a: '\\"[{', b: [1, { c: null }] }, 7, 'x'], crs: null })
    for (let length = 1; length < text.length; length++) expect(() => readAll([text.slice(0, length)])).toThrow('it was cut off')
  })
})

describe('decoding', () => {
  it('joins letters that arrive in parts, far behind the start', async () => {
    const filler = 'x'.repeat(70_000)
    await fc.assert(fc.asyncProperty(fc.string(
      { unit: 'binary', minLength: 1, maxLength: 60 }
    ), fc.integer({ min: 1, max: 9 }), async (tail, piece) => {
      const text = filler + tail
      const { chunks, notes } = await decodeText(bytesOf(text, piece === 9 ? 70_001 : 35_000 + piece))
      let read = ''
      for await (const chunk of chunks) read += chunk
      expect(read).toBe(text)
      expect(notes).toEqual([])
    }), { numRuns: 100 })
  })

  it('joins them byte by byte', async () => {
    const text = `${'x'.repeat(70_000)}ä€😀µ°Ω`
    const bytes = new TextEncoder().encode(text)
    async function* oneByOne(): AsyncGenerator<Uint8Array> {
      yield bytes.subarray(0, 66_000)
      for (let at = 66_000; at < bytes.length; at++) yield bytes.subarray(at, at + 1)
    }
    let read = ''
    for await (const chunk of (await decodeText(oneByOne())).chunks) read += chunk
    expect(read).toBe(text)
  })
})
