import { describe, expect, it } from 'vitest'
import { IMPORT_KINDS, KINDS } from '@/lib/intake/index'
import { quantityOfField } from '@/lib/intake/mapping/field-names'
import { type Quantity } from '@/lib/units/convert'
import { foreignHeaderUnit } from '@/lib/units/foreign'

describe('a unit in a header that its field is not measured in', () => {
  // Symbols and prefixes: BIPM, SI brochure, 9th edition, tables 2, 4, 7 and 8; pound and yard: NIST Handbook 44, appendix C (from memory).
  it.each<[string, Quantity, string]>([
    ['Conductor (kΩ)', 'resistance', 'kΩ'], ['Side A (mV)', 'resistance', 'mV'], ['Electrode span (kg)', 'length', 'kg'],
    ['Side A [MΩ]', 'resistance', 'MΩ'], ['Side A (nΩ)', 'resistance', 'nΩ'], ['Side A (µV)', 'resistance', 'µV'],
    ['Conductor (kohm)', 'resistance', 'kohm'], ['Conductor (kilo-ohm)', 'resistance', 'kilo-ohm'], ['Conductor (µΩ/m)', 'resistance', 'µΩ/m'],
    ['Side A (V)', 'resistance', 'V'], ['Side A (°C)', 'resistance', '°C'], ['Side A (m)', 'resistance', 'm'], ['Side A (in mV)', 'resistance', 'in mV'],
    ['Splice temp (K)', 'temperature', 'K'], ['Load (MW)', 'current', 'MW'], ['Load (%)', 'current', '%'], ['Wind (Beaufort)', 'speed', 'Beaufort'],
    ['Span (yd)', 'length', 'yd'], ['Span, kg', 'length', 'kg'], ['Conductor kΩ', 'resistance', 'kΩ'], ['side_a_mV', 'resistance', 'mV'],
    ['conductor_kohm', 'resistance', 'kohm'],
  ])('%s', (header, quantity, unit) => expect(foreignHeaderUnit(header, quantity)).toBe(unit))

  it.each<[string, Quantity]>([
    ['Conductor (mΩ)', 'resistance'], ['Conductor (Ω)', 'resistance'], ['Side A (back) [µΩ]', 'resistance'], ['Electrode span (in)', 'length'],
    ['Splice temp (°F)', 'temperature'], ['Wind (m/s)', 'speed'], ['Station (ft station)', 'line-distance'], ['Milepost (mi)', 'line-distance'],
  ])('is none where it is one of the field\'s: %s', (header, quantity) => expect(foreignHeaderUnit(header, quantity)).toBeNull())

  it.each<[string, Quantity]>([
    ['Side A', 'resistance'], ['Side A (2)', 'resistance'], ['Side A (back)', 'resistance'], ['Conductor (C)', 'resistance'], ['Conductor (bare)', 'resistance'],
    ['Resistance (A)', 'resistance'], ['Ambient (deg)', 'temperature'], ['Ambient (avg)', 'temperature'], ['Distance (from tower)', 'length'],
    ['Current (per phase)', 'current'], ['Load (SCADA)', 'current'], ['Splice temp (max)', 'temperature'], ['Wind (gust)', 'speed'],
  ])('is none in a remark: %s', (header, quantity) => expect(foreignHeaderUnit(header, quantity)).toBeNull())

  it('is in no header of a template', () => {
    for (const kind of IMPORT_KINDS) {
      for (const field of KINDS[kind].fields) {
        const quantity = quantityOfField(field)
        if (quantity !== null) expect([field.name, foreignHeaderUnit(field.name, quantity)]).toEqual([field.name, null])
        for (const name of quantity === null ? [] : field.synonyms) expect([name, foreignHeaderUnit(name, quantity!)]).toEqual([name, null])
      }
    }
  })
})
