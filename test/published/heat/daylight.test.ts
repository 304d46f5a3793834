import { describe, expect, it } from 'vitest'
import { sunOff } from '@/lib/condition/loading/daylight'

const MINUTE_MS = 60_000
const near = (atMs: number, utc: string) => Math.abs(atMs - Date.parse(utc)) / MINUTE_MS

describe('when the sun is off a line', () => {
  // On the equator day and night are twelve hours each by the geometry of the sphere; at Greenwich on 2026-03-20 the sun is 7.4 min behind the clock
  // (equation of time of that day, in every almanac), so it sets about 18:07 UTC and rises about 06:07.
  it('on the equator at the equinox, from a quarter past six in the evening to a quarter past six', () => {
    const found = sunOff(Date.parse('2026-03-20T12:00:00Z'), 0, 0)
    if (found.kind !== 'between') throw new Error(found.kind)
    expect(near(found.fromMs, '2026-03-20T18:07:00Z')).toBeLessThanOrEqual(6)
    expect(near(found.toMs, '2026-03-21T06:07:00Z')).toBeLessThanOrEqual(6)
  })

  // Beyond the polar circle: no sunset at midsummer, no sunrise at midwinter.
  it('never at 70° north in June, always there in December', () => {
    expect(sunOff(Date.parse('2026-06-21T00:00:00Z'), 20, 70)).toEqual({ kind: 'never' })
    expect(sunOff(Date.parse('2026-12-21T00:00:00Z'), 20, 70)).toEqual({ kind: 'always' })
  })

  it('from now on where it is night already, until it rises', () => {
    const fromMs = Date.parse('2026-03-21T00:00:00Z')
    const found = sunOff(fromMs, 0, 0)
    expect(found).toMatchObject({ kind: 'between', fromMs })
  })
})
