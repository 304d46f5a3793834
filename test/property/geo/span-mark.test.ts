import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { alongText } from '@/components/splice/position'
import { structureKey } from '@/lib/geo'
import { parseSpanMark } from '@/lib/geo/span-mark'

const label = fc.stringMatching(/^[0-9]{1,3}(\/[0-9]{1,2}|[A-C]|)$/)

describe('a place along a span', () => {
  it('is read again from the words in which every screen tells it, to half of the last digit that they show', () => {
    fc.assert(fc.property(label, label, fc.double({ min: 3.1, max: 2_000, noNaN: true }), fc.constantFrom('us' as const, 'metric' as const), (back, ahead, offsetM, system) => {
      const text = alongText(
        { structure_back: back, structure_ahead: ahead, offset_m: offsetM, line_distance_m: 0, phase: null, position: null, circuit_side: null, subconductor: null }, system)
      const parsed = parseSpanMark(text)
      if (parsed === null || !('mark' in parsed)) throw new Error(`'${text}' was not read.`)
      const { along, names } = parsed.mark
      expect(names).toContainEqual({ first: structureKey(back), second: structureKey(ahead) })
      expect(Math.abs(('lengthM' in along ? along.lengthM : Number.NaN) - offsetM)).toBeLessThanOrEqual(system === 'us' ? 0.1525 : 0.501)
    }), { numRuns: 300 })
  })

  it('never throws and never turns a number into less than all of it', () => {
    fc.assert(fc.property(fc.string({ maxLength: 100 }), fc.nat({ max: 9_999 }), (noise, number) => {
      parseSpanMark(noise)
      const parsed = parseSpanMark(`45-46 + ${number} m${noise}`)
      if (noise.trim() !== '' && parsed !== null && 'mark' in parsed && 'lengthM' in parsed.mark.along) expect(noise).toMatch(/^\s*(etres?|eters?|i|iles?)?\s*$|ahead|back|before|beyond|past|after|\+/i)
    }), { numRuns: 500 })
  })
})
