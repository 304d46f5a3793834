import { describe, expect, it } from 'vitest'
import { quantityOf, type Quantity, type Unit } from '@/lib/units/convert'
import { detectHeaderUnit, recogniseUnit, splitCell } from '@/lib/units/detect'

describe('spellings of a unit', () => {
  it.each([
    ['\u00B5\u03A9', 'uohm'], ['\u03BC\u03A9', 'uohm'], ['\u00B5\u2126', 'uohm'], ['uohm', 'uohm'], ['UOHM', 'uohm'],
    ['micro-ohm', 'uohm'], ['Micro Ohms', 'uohm'], ['mΩ', 'mohm'], ['m\u2126', 'mohm'], ['milliohm', 'mohm'], ['Ω', 'ohm'],
    ['°F', 'f'], ['ºF', 'f'], ['℉', 'f'], ['Deg. F', 'f'], ['°C', 'c'], ['℃', 'c'],
    ['mph', 'mph'], ['kn', 'kn'], ['knots', 'kn'], ['m/s', 'm_s'], ['m·s⁻¹', 'm_s'],
    ['km/h', 'km_h'], ['ft', 'ft'], ['feet', 'ft'], ['in', 'in'], ['kA', 'ka'],
  ] as [string, Unit][])('%s', (text, unit) => {
    expect(recogniseUnit(text)).toBe(unit)
  })

  it('never reads megohm as milliohm', () => {
    expect(recogniseUnit('MΩ')).toBeNull()
    expect(recogniseUnit('Mohm')).toBeNull()
  })

  it('leaves a unit it does not know unknown', () => {
    expect(recogniseUnit('parsec')).toBeNull()
    expect(recogniseUnit('')).toBeNull()
  })
})

describe('the unit in a header', () => {
  it.each([
    ['Side A (µΩ)', undefined, 'uohm'],
    ['Resistance side A [micro-ohm] (mean)', undefined, 'uohm'],
    ['Ambient, °F', undefined, 'f'],
    ['Wind (in mph)', undefined, 'mph'],
    ['wind_m_s', undefined, 'm_s'],
    ['side_a_uohm', undefined, 'uohm'],
    ['Span ft', undefined, 'ft'],
    ['line_current_a', 'current', 'a'],
    ['ambient_c', 'temperature', 'c'],
    ['offset_from_structure_m', 'length', 'm'],
    ['Station (ft)', 'line-distance', 'ft'],
    ['A micro-ohm', 'resistance', 'uohm'], ['Side A (micro ohm)', 'resistance', 'uohm'], ['R_A [µΩ]', 'resistance', 'uohm'],
    ['A microhms', 'resistance', 'uohm'], ['Ra uOhm', 'resistance', 'uohm'], ['side_a_micro_ohm', 'resistance', 'uohm'],
    ['µΩ side A', 'resistance', 'uohm'], ['micro-ohms side A', 'resistance', 'uohm'], ['A u ohm', 'resistance', 'uohm'],
    ['A mΩ', 'resistance', 'mohm'], ['A milli-ohm', 'resistance', 'mohm'], ['Conductor milli ohms', 'resistance', 'mohm'],
    ['Side A ohm', 'resistance', 'ohm'], ['Ambient deg F', 'temperature', 'f'], ['Wind m/s', 'speed', 'm_s'],
    ['feet from structure', 'length', 'ft'],
  ] as [string, Quantity | undefined, Unit][])('%s', (header, quantity, unit) => {
    expect(detectHeaderUnit(header, quantity)).toBe(unit)
  })

  it('does not take the name of a side or a phase for a unit', () => {
    expect(detectHeaderUnit('Side A')).toBeNull()
    expect(detectHeaderUnit('side_a', 'resistance')).toBeNull()
    expect(detectHeaderUnit('Phase C', 'current')).toBeNull()
    expect(detectHeaderUnit('cut in')).toBeNull()
  })

  it('does not make ohms of megohms', () => {
    for (const header of ['A MΩ', 'Side A M ohm', 'A mega-ohm', 'Side A (Mohm)', 'SIDE_A_MOHM']) {
      expect(detectHeaderUnit(header, 'resistance'), header).toBeNull()
    }
  })

  it('does not believe a unit of another quantity', () => {
    expect(detectHeaderUnit('Side A (°F)', 'resistance')).toBeNull()
    expect(quantityOf('f')).toBe('temperature')
  })
})

describe('a cell with its unit', () => {
  it.each([
    ['12.3 mΩ', { numberText: '12.3', unit: 'mohm', unknownUnit: null }],
    ['12,3', { numberText: '12,3', unit: null, unknownUnit: null }],
    ['1 234,5 ft', { numberText: '1 234,5', unit: 'ft', unknownUnit: null }],
    ['−5.5°F', { numberText: '-5.5', unit: 'f', unknownUnit: null }],
    ['1e-3 ohm', { numberText: '1e-3', unit: 'ohm', unknownUnit: null }],
    ['12+34.5', { numberText: '12+34.5', unit: 'ft_station', unknownUnit: null }],
    ['12 parsec', { numberText: '12', unit: null, unknownUnit: 'parsec' }],
  ])('%s', (cell, parts) => {
    expect(splitCell(cell)).toEqual(parts)
  })

  it('is none where no number stands first', () => {
    expect(splitCell('broken')).toBeNull()
    expect(splitCell('')).toBeNull()
    expect(splitCell('=1+1')).toBeNull()
  })
})
