import { describe, expect, it } from 'vitest'
import * as format from '@/lib/units/format'
import { dateTimeMeasure, formatDate, formatDateTime, isTimeZone } from '@/lib/units/time'

describe('numbers at the user’s edge', () => {
  it('reads feet, miles and Fahrenheit in the US and metres and Celsius elsewhere', () => {
    expect(format.formatLineDistance(42_700, 'us')).toBe('26.53 mi')
    expect(format.formatLineDistance(42_700, 'metric')).toBe('42.70 km')
    expect(format.formatLineDistance(100, 'us')).toBe('328 ft')
    expect(format.formatLength(0.3048, 'us')).toBe('12.0 in')
    expect(format.formatLength(0.3048, 'metric')).toBe('305 mm')
    expect(format.formatLength(305, 'metric')).toBe('305 m')
    expect(format.formatLength(888_100, 'us')).toBe('552 mi')
    expect(format.formatLength(67_400, 'us')).toBe('41.9 mi')
    expect(format.formatLength(1_588_000, 'metric')).toBe('1,588 km')
    expect(format.formatTemperatureLimit(93, 'us')).toBe('199 °F')
    expect(format.formatTemperatureLimit(75, 'metric')).toBe('75 °C')
    expect(format.formatOffset(123.4, 'metric')).toBe('123 m')
    expect(format.formatOffset(-2, 'us')).toBe('−6.6 ft')
    expect(format.formatTemperature(20, 'us')).toBe('68.0 °F')
    expect(format.formatTemperatureDifference(5, 'us')).toBe('9.0 °F')
    expect(format.formatTemperatureDifference(5, 'metric')).toBe('5.0 °C')
    expect(format.formatWind(4, 'us')).toBe('8.95 mph')
    expect(format.measureText(format.diameterMeasure(28.14, 'us'))).toBe('1.11 in')
  })

  it('prints resistance with one decimal, current in whole amperes and voltage as people say it', () => {
    expect(format.formatResistance(1234.56)).toBe('1,234.6 µΩ')
    expect(format.formatCurrent(1223.6)).toBe('1,224 A')
    expect(format.formatVoltage(230)).toBe('230 kV')
    expect(format.formatVoltage(34.5)).toBe('34.5 kV')
  })

  it('gives number and unit apart for a lighter tone', () => {
    expect(format.resistanceMeasure(53)).toEqual({ value: '53.0', unit: 'µΩ' })
    expect(format.percentMeasure(0.573)).toEqual({ value: '57', unit: '%' })
  })

  it('never rounds what is not quite none or all to 0 % or 100 %', () => {
    expect(format.formatPercent(0.0001)).toBe('<1%')
    expect(format.formatPercent(0.9999)).toBe('>99%')
    expect(format.formatPercent(0)).toBe('0%')
    expect(format.formatPercent(1)).toBe('100%')
    expect(format.formatPercent(0.9996, 1)).toBe('>99.9%')
  })

  it('never says a place is surer than it is: 66.7 % reads 66 on every screen', () => {
    expect([0.8999, 0.9, 0.667, 0.004, 1].map(format.formatSure)).toEqual(['89%', '90%', '66%', '<1%', '100%'])
  })

  it('says that a number is not known instead of printing NaN', () => {
    expect(format.formatResistance(Number.NaN)).toBe('not known')
    expect(format.formatRatio(Number.POSITIVE_INFINITY)).toBe('not known')
    expect(formatDateTime(Number.NaN, 'UTC')).toBe('not known')
  })

  it('prints no minus before a zero', () => {
    expect(format.formatNumber(-0.04, 1)).toBe('0.0')
  })
})

describe('a ratio near an edge', () => {
  it('has two decimals, and as many as show its side of the edge', () => {
    expect(format.formatRatio(4.41666, [1, 1.3])).toBe('4.42')
    expect(format.formatRatio(1.2996, [1, 1.3])).toBe('1.2996')
    expect(format.formatRatio(1.304, [1, 1.3])).toBe('1.304')
    expect(format.formatRatio(1.3, [1, 1.3])).toBe('1.30')
    expect([1, 1.3, 1.855].map(format.formatEdge)).toEqual(['1.00', '1.30', '1.855'])
  })
})

describe('times', () => {
  const atMs = Date.UTC(2026, 2, 14, 15, 26)

  it('carry their zone, and letters for the month', () => {
    expect(formatDateTime(atMs, 'America/Denver')).toBe('14 Mar 2026 09:26 MDT')
    expect(formatDateTime(atMs, 'UTC')).toBe('14 Mar 2026 15:26 UTC')
    expect(dateTimeMeasure(atMs, 'America/Denver')).toEqual({ value: '14 Mar 2026 09:26', unit: 'MDT' })
  })

  it('give the day of the place where the work was done', () => {
    expect(formatDate(Date.UTC(2026, 2, 14, 3, 0), 'America/Denver')).toBe('13 Mar 2026')
  })

  it('know a zone from a word', () => {
    expect(isTimeZone('America/Denver')).toBe(true)
    expect(isTimeZone('Middle/Earth')).toBe(false)
  })
})
