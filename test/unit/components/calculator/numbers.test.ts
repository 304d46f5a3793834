import { describe, expect, it } from 'vitest'
import { NUMBER_KEYS, NUMBERS, rangeFault, shownNumber, typedNumber, type NumberSpec } from '@/components/calculator/numbers'
import { NETD, WIND } from '@/components/loading/numbers'
import { formatWind } from '@/lib/units/format'

describe('a number as people type it', () => {
  it.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    [' 1 200 ', 1200],
    ['1,234,567', 1234567],
    ['1,234.5', 1234.5],
    ['', null],
  ])('%j', (text, value) => {
    expect(typedNumber(text, NUMBERS.a, 'metric')).toBe(value)
  })

  it('asks where a comma may mean a thousand or a decimal', () => {
    expect(typedNumber('1,200', NUMBERS.i, 'metric')).toEqual({ fault: 'Write 1200 or 1.2: the comma may mean either.' })
  })

  it('asks for a number where there is none', () => {
    expect(typedNumber('twelve', NUMBERS.a, 'metric')).toHaveProperty('fault')
    expect(typedNumber('12 µΩ', NUMBERS.a, 'metric')).toHaveProperty('fault')
  })

  it('is kept in SI whatever it is typed in: an international foot is 0.3048 m exactly, 32 °F is 0 °C', () => {
    expect(typedNumber('12', NUMBERS.span, 'us')).toBe(0.3048)
    expect(typedNumber('304.8', NUMBERS.span, 'metric')).toBe(0.3048)
    expect(typedNumber('32', NUMBERS.air, 'us')).toBe(0)
    expect(typedNumber('−40', NUMBERS.air, 'us')).toBe(-40)
  })

  it('is a difference where it is one: 0.05 °C of noise is 0.09 °F, without an offset', () => {
    expect(shownNumber(0.05, NETD, 'us')).toBe('0.09')
    expect(shownNumber(0.05, NETD, 'metric')).toBe('0.05')
    expect(typedNumber('0.09', NETD, 'us')).toBe(0.05)
    expect(rangeFault(9, NETD, 'us')).toContain('16.2 °F cannot be right: it lies between 0 and 3.6 °F')
  })

  it('of wind has the same digits in its field and in a sentence', () => {
    for (const [windMS, us] of [[0.61, '1.36 mph'], [4, '8.95 mph'], [5.3645, '12 mph']] as const) {
      expect(formatWind(windMS, 'us')).toBe(us)
      expect(`${shownNumber(windMS, NUMBERS.wind, 'us')} mph`).toBe(us)
      expect(`${shownNumber(windMS, WIND, 'us')} mph`).toBe(us)
    }
    expect(formatWind(0.61, 'metric')).toBe('0.61 m/s')
  })

  it('comes back as it was typed, in either system', () => {
    for (const key of NUMBER_KEYS) {
      const spec: NumberSpec = NUMBERS[key]
      for (const system of ['us', 'metric'] as const) {
        const shown = shownNumber(spec.greatest, spec, system)
        const again = typedNumber(shown, spec, system)
        expect(shownNumber(Number(again), spec, system)).toBe(shown)
      }
    }
  })

  it('is allowed at both ends of its range and refused beyond', () => {
    for (const key of NUMBER_KEYS) {
      const spec: NumberSpec = NUMBERS[key]
      expect(rangeFault(spec.least, spec, 'us')).toBeUndefined()
      expect(rangeFault(spec.greatest, spec, 'us')).toBeUndefined()
      const { remedy } = spec
      expect(rangeFault(spec.greatest + 1, spec, 'us')).toContain(typeof remedy === 'string' ? remedy : remedy(spec.greatest + 1))
    }
  })
})
