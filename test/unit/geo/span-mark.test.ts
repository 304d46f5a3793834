import { describe, expect, it } from 'vitest'
import { parseSpanMark, type SpanMark } from '@/lib/geo/span-mark'

const markOf = (text: string): SpanMark => {
  const parsed = parseSpanMark(text)
  if (parsed === null || !('mark' in parsed)) throw new Error(`'${text}' was read as no place along a span.`)
  return parsed.mark
}

describe('a place along a span as it is typed', () => {
  // 1 ft is 0.3048 m and 1 mi is 1609.344 m exactly: international yard and pound agreement of 1959.
  it.each([
    ['STR 45-46 + 404 ft', { first: '45', second: '46' }, 123.1392],
    ['45-46 + 123 m', { first: '45', second: '46' }, 123],
    ['45–46 + 123 m', { first: '45', second: '46' }, 123],
    ['STR 45 - STR 46 +123m', { first: '45', second: '46' }, 123],
    ['12/3-12/4 + 30 m', { first: '12/3', second: '12/4' }, 30],
    ['045A-046 + 1,404 ft', { first: '045a', second: '046' }, 427.9392],
    ['45-46 + 12,5 m', { first: '45', second: '46' }, 12.5],
    ["45-46 + 404'", { first: '45', second: '46' }, 123.1392],
    ['45+404 ft', { first: '45' }, 123.1392],
    ['45 + 0.1 mi', { first: '45' }, 160.9344],
    ['2310 STR 45-46 + 404 feet', { circuit: '2310', first: '45', second: '46' }, 123.1392],
    ['circuit 2310, 45-46 + 0.2 km', { circuit: '2310', first: '45', second: '46' }, 200],
    ['T-12-T-13 + 5 m', { first: 't-12', second: 't-13' }, 5],
  ])('reads %s', (text, names, lengthM) => {
    const { along, toward, names: ways } = markOf(text)
    expect(ways).toContainEqual(names)
    expect(toward).toBe('on')
    expect('lengthM' in along && along.lengthM).toBeCloseTo(lengthM, 9)
  })

  it.each([
    ['45-46, 123 m ahead of 45', { first: '45', second: '46' }, '45', 'ahead', { lengthM: 123 }],
    ['45-46, 123 m back of STR 46', { first: '45', second: '46' }, '46', 'back', { lengthM: 123 }],
    ['45-46 50 m before 46', { first: '45', second: '46' }, '46', 'back', { lengthM: 50 }],
    ['123 m ahead of 45', { first: '45' }, '45', 'ahead', { lengthM: 123 }],
    ['2310, 123 m ahead of 45', { circuit: '2310', first: '45' }, '45', 'ahead', { lengthM: 123 }],
    ['one third ahead of 45', { first: '45' }, '45', 'ahead', { share: 1 / 3 }],
    ['2310 45-46, a quarter back of 46', { circuit: '2310', first: '45', second: '46' }, '46', 'back', { share: 1 / 4 }],
  ])('reads %s', (text, names, from, toward, along) => {
    expect(markOf(text)).toMatchObject({ from, toward, along })
    expect(markOf(text).names).toContainEqual(names)
  })

  it.each(['45-46', '2310 45-46', '45-46, midspan', 'halfway between 45 and 46'])('takes %s for the middle of the span', (text) => {
    expect(markOf(text)).toMatchObject({ along: { share: 0.5 }, toward: 'on' })
  })

  it('asks for the unit of a bare number: metres are not feet', () => {
    expect(parseSpanMark('45-46 + 404')).toEqual({ unitless: '404' })
    expect(parseSpanMark('45-46, 404 ahead of 45')).toEqual({ unitless: '404' })
  })

  it.each(['', '45', '2310 45', 'SP-0412 old', '45-46 + 404 parsecs', '45-46 + ft', '45-46 + 30 m and more', '46.87, -113.99x', '+ 30 m', 'ahead of 45'])(
    'passes over nothing: %s is no place along a span', (text) => {
      expect(parseSpanMark(text)).toBeNull()
    })
})
