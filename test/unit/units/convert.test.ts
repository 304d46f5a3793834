import { describe, expect, it } from 'vitest'
import { convert, convertDifference, isUnit, parseFeetStationFt, quantityOf, unitsAgree } from '@/lib/units/convert'

describe('converting units', () => {
  it.each([
    [12.3, 'mohm', 'uohm', 12300],
    [0.000012, 'ohm', 'uohm', 12],
    [68, 'f', 'c', 20],
    [-40, 'f', 'c', -40],
    [20, 'c', 'f', 68],
    [1, 'ft', 'in', 12],
    [1, 'mi', 'ft', 5280],
    [1, 'ft', 'm', 0.3048],
    [12, 'in', 'mm', 304.8],
    [30.48, 'cm', 'ft', 1],
    [36, 'km_h', 'm_s', 10],
    [10, 'mph', 'm_s', 4.4704],
    [1, 'kn', 'km_h', 1.852],
    [1.2, 'ka', 'a', 1200],
    [230, 'kv', 'v', 230000],
    [1234.5, 'ft_station', 'ft', 1234.5],
  ] as const)('%f %s is, in %s, %f', (value, from, to, expected) => {
    expect(convert(value, from, to)).toBeCloseTo(expected, 10)
  })

  it('turns a difference without the offset of the scale', () => {
    expect(convertDifference(9, 'f', 'c')).toBeCloseTo(5, 12)
    expect(convertDifference(5, 'c', 'f')).toBeCloseTo(9, 12)
  })

  it('refuses to turn one quantity into another, by name', () => {
    expect(() => convert(1, 'uohm', 'm')).toThrow('µΩ cannot be turned into m.')
    expect(unitsAgree('ft', 'ft_station')).toBe(true)
    expect(unitsAgree('a', 'v')).toBe(false)
  })

  it('knows its own keys only', () => {
    expect(isUnit('uohm')).toBe(true)
    expect(isUnit('toString')).toBe(false)
    expect(quantityOf('kn')).toBe('speed')
  })
})

describe('feet stations', () => {
  it.each([['12+34.5', 1234.5], ['0+00', 0], ['-1+50', -150], [' 105+07.25 ', 10507.25]])('%s is %f ft', (text, feet) => {
    expect(parseFeetStationFt(text)).toBe(feet)
  })

  it.each(['12+3', '1234.5', '12 + 34', '+34', '12+345'])('%s is no feet station', (text) => {
    expect(parseFeetStationFt(text)).toBeNull()
  })
})
