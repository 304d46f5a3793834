import { describe, expect, it } from 'vitest'
import { CellReport } from '@/lib/intake/cells/cell-report'
import { coordinateReader } from '@/lib/intake/cells/coordinate'
import { numberReader, parseDecimal } from '@/lib/intake/cells/number'
import { findField } from '@/lib/intake/index'
import type { Unit } from '@/lib/units/convert'

function read(text: string, name: string, unit?: Unit, decimalComma?: boolean): { value: unknown; report: CellReport } {
  const field = findField('readings', name)!
  const report = new CellReport()
  report.startRow(7)
  report.startCell(field, name)
  return { value: numberReader(field, unit ?? field.unit, decimalComma)(text, report), report }
}

const codeOf = (text: string, name: string, unit?: Unit): string | undefined => read(text, name, unit).report.issues[0]?.code

describe('decimal marks', () => {
  it.each([
    ['12,5', undefined, 12.5], ['12.5', undefined, 12.5], ['1.234,5', undefined, 1234.5], ['1,234.5', undefined, 1234.5],
    ['1 234,5', undefined, 1234.5], ['1\u00a0234.5', undefined, 1234.5], ['1,234,567', undefined, 1234567],
    ['1.234.567', undefined, 1234567],
    ['0,125', undefined, 0.125], ['0.125', true, 0.125], ['1,234', true, 1.234], ['1,234', false, 1234], ['12.5', true, 12.5],
    ['-3', undefined, -3], ['−3', undefined, -3], ['+4.5', undefined, 4.5], ['1e-3', undefined, 0.001], ['.5', undefined, 0.5],
  ] as const)('%s with decimal comma %s is %d', (text, comma, value) => {
    expect(parseDecimal(text, comma)).toBe(value)
  })

  it('does not guess between 1.234 and 1234', () => {
    expect(parseDecimal('1,234', undefined)).toBe('ambiguous-number')
    expect(parseDecimal('1.234', true)).toBe('ambiguous-number')
  })

  it.each(
    ['12,34.5', '1.2.3', '1,23,4', '', 'abc', '12a', '--3', '1e', '12,5']
  )('%s is no number where the point is the decimal mark', (text) => {
    expect(parseDecimal(text, false)).toBe('not-a-number')
  })

  it('tells what is not finite from what is no number', () => {
    for (const text of ['NaN', 'inf', '-Infinity', '1e999']) expect(parseDecimal(text, undefined)).toBe('not-finite')
  })
})

describe('units', () => {
  it('turns the column\'s unit into the template\'s', () => {
    expect(read('0.0123', 'side_a_uohm', 'mohm').value).toBeCloseTo(12.3, 12)
    expect(read('98.6', 'ambient_c', 'f').report.issues).toEqual([])
    expect(read('68', 'ambient_c', 'f').value).toBeCloseTo(20, 12)
    expect(read('10', 'wind_m_s', 'mph').value).toBeCloseTo(4.4704, 12)
    expect(read('12', 'electrode_span_m', 'in').value).toBeCloseTo(0.3048, 12)
  })

  it('lets a cell name its own', () => {
    expect(read('0.0123 mΩ', 'side_a_uohm').value).toBeCloseTo(12.3, 12)
    expect(read('21 µΩ', 'side_a_uohm', 'mohm').value).toBe(21)
    expect(read('21 \u03bcΩ', 'side_a_uohm').value).toBe(21)
    expect(read('33 %', 'span_fraction').value).toBe(0.33)
    expect(read('1/4', 'span_fraction').value).toBe(0.25)
  })

  it('refuses units that measure something else, and units it does not know', () => {
    expect(codeOf('12 ft', 'side_a_uohm')).toBe('wrong-unit')
    expect(codeOf('12 parsec', 'electrode_span_m')).toBe('unknown-unit')
    expect(codeOf('12 m', 'emissivity')).toBe('wrong-unit')
  })

  it('reads feet stations only where the column says so', () => {
    expect(read('12+34.5', 'offset_from_structure_m', 'ft_station').value).toBeCloseTo(1234.5 * 0.3048, 9)
    expect(read('1234.5', 'offset_from_structure_m', 'ft_station').value).toBeCloseTo(1234.5 * 0.3048, 9)
    expect(codeOf('12+34.5', 'offset_from_structure_m')).toBe('feet-station')
  })
})

describe('what a resistance cannot be', () => {
  it.each([
    ['0', 'not-positive'], ['-3', 'not-positive'], ['NaN', 'not-finite'], ['inf', 'not-finite'], ['0.012', 'looks-like-milliohm'],
    ['60000', 'out-of-range'], ['<5', 'not-a-number'], ['=1+1', 'formula-cell'], ['+cmd|x', 'formula-cell'],
    ['@SUM(A1)', 'formula-cell'], ['#REF!', 'spreadsheet-error'], ['#DIV/0!', 'spreadsheet-error'], ['12;13', 'several-values'],
    ['9'.repeat(100), 'not-a-number'], ['1,234', 'ambiguous-number'],
  ])('%s is refused as %s', (text, code) => {
    const { value, report } = read(text, 'side_a_uohm')
    expect(value).toBeUndefined()
    expect(report.rejected).toBe(true)
    expect(report.issues.map((issue) => issue.code)).toEqual([code])
  })

  it('names row, field, value and remedy in the sentence', () => {
    expect(read('0.012', 'side_a_uohm').report.issues).toEqual([{
      severity: 'error', row: 7, field: 'side_a_uohm', value: '0.012', code: 'looks-like-milliohm',
      message: 'Row 7, side_a_uohm: \'0.012\' is under 0.5 µΩ and looks like milliohm: 0.012 mΩ would be 12 µΩ.',
      remedy: 'Correct this row: write the number with its unit (0.012 mΩ), or in the unit of the column.',
    }])
  })

  it('gives the converted value where the column speaks another unit', () => {
    expect(read('500', 'electrode_span_m', 'in').report.issues[0]?.message)
      .toBe('Row 7, electrode_span_m: \'500\' (12.7 m) is outside 0.05 to 4 m.')
  })
})

describe('side information', () => {
  it('is left out with a warning, because a reading is not lost for its weather', () => {
    const { value, report } = read('720', 'ambient_c')
    expect(value).toBeUndefined()
    expect(report.rejected).toBe(false)
    expect(report.issues[0]).toMatchObject(
      { severity: 'warning', code: 'out-of-range', message: 'Row 7, ambient_c: \'720\' is outside -70 to 70 °C. It is left out.' }
    )
  })

  it.each(['-', 'n/a', 'NULL', 'not measured'])('%s says nothing', (text) => {
    expect(read(text, 'wind_m_s')).toMatchObject({ value: null, report: { issues: [] } })
  })

  it('counts repeats in whole numbers', () => {
    expect(read('2', 'repeat_no').value).toBe(2)
    expect(codeOf('2.5', 'repeat_no')).toBe('not-whole')
  })
})

describe('coordinates', () => {
  const coordinate = (text: string, letters: 'EW' | 'NS'): { value: unknown; codes: string[] } => {
    const report = new CellReport()
    report.startRow(1)
    report.startCell(findField('readings', letters === 'EW' ? 'lon' : 'lat')!, 'x')
    const value = coordinateReader(letters, undefined)(text, report)
    return { value, codes: report.issues.map((issue) => issue.code) }
  }

  it.each([
    ['-112.041733', 'EW', -112.041733], ['112.041733 W', 'EW', -112.041733], ['W112.041733', 'EW', -112.041733],
    ['47,518204', 'NS', 47.518204],
    ['47°31\'05.5"N', 'NS', 47 + 31 / 60 + 5.5 / 3600], ['47 31.0917', 'NS', 47 + 31.0917 / 60],
    ['112°02′30.24″ W', 'EW', -(112 + 2 / 60 + 30.24 / 3600)],
    ['-112 2 30', 'EW', -(112 + 2 / 60 + 30 / 3600)], ['0', 'EW', 0],
  ] as const)('%s (%s) is %d degrees', (text, letters, degrees) => {
    const { value, codes } = coordinate(text, letters)
    expect(codes).toEqual([])
    expect(value).toBeCloseTo(degrees, 9)
  })

  it('tells a latitude in the column of longitudes', () => {
    expect(coordinate('47.5 N', 'EW').codes).toEqual(['swapped-lon-lat'])
  })

  it.each(['47 75 00', 'somewhere', '1.2.3', '='])('refuses %s', (text) => {
    expect(coordinate(text, 'NS').value).toBeUndefined()
  })
})
