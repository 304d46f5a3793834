import { describe, expect, it } from 'vitest'
import { KINDS } from '@/lib/intake/kinds/kinds'
import { ContentBytes, tagOf } from '@/lib/intake/normalise/content-bytes'
import { hash128 } from '@/lib/intake/index'

const bytesOf = (write: (content: ContentBytes) => void): string => {
  const content = new ContentBytes()
  write(content)
  return Buffer.from(content.bytes()).toString('hex')
}

describe('bytes that a reading is told by', () => {
  it('differ where the values differ, wherever one text ends and the next begins', () => {
    const written = [
      bytesOf((c) => { c.text(1, 'ab'); c.text(2, 'c') }), bytesOf((c) => { c.text(1, 'a'); c.text(2, 'bc') }),
      bytesOf((c) => { c.text(1, 'abc') }), bytesOf((c) => { c.text(2, 'abc') }), bytesOf((c) => { c.text(1, ''); c.text(2, 'abc') }),
      bytesOf((c) => { c.number(1, 21.8) }), bytesOf((c) => { c.number(1, 21.800000000000001) }), bytesOf((c) => { c.number(1, 21.800000000000004) }),
      bytesOf((c) => { c.text(1, 'ä') }), bytesOf((c) => { c.text(1, 'a\u0308') }), bytesOf((c) => { c.text(1, 'ä'.repeat(5000)) }),
    ]
    expect(new Set(written).size).toBe(written.length - 1) // 21.800000000000001 is the double 21.8
  })

  it('are the same for 0 and -0, and for a text of any length written anew', () => {
    expect(bytesOf((c) => { c.number(1, -0) })).toBe(bytesOf((c) => { c.number(1, 0) }))
    const long = 'Read from the platform, électrodes seated once. '.repeat(400)
    expect(bytesOf((c) => { c.text(1, 'x'); c.clear(); c.text(1, long) })).toBe(bytesOf((c) => { c.text(1, long) }))
  })

  it('tell every field of a reading apart, and hash as the same text does', () => {
    const tags = KINDS.readings.fields.map(({ key }) => tagOf(key))
    expect(new Set(tags).size).toBe(tags.length)
    expect(hash128(new TextEncoder().encode('12/3 über'))).toBe(hash128('12/3 über'))
  })
})
