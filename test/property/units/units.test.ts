import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { convert, UNIT_KEYS, unitsAgree } from '@/lib/units/convert'
import { formatRatio } from '@/lib/units/format'

const unit = fc.constantFrom(...UNIT_KEYS)

describe('conversion', () => {
  it('comes back to where it began', () => {
    fc.assert(fc.property(unit, unit, fc.double({ min: -1e6, max: 1e6, noNaN: true }), (from, to, value) => {
      fc.pre(unitsAgree(from, to))
      const scale = Math.max(1, Math.abs(value))
      expect(Math.abs(convert(convert(value, from, to), to, from) - value) / scale).toBeLessThan(1e-9)
    }))
  })
})

describe('a printed ratio', () => {
  it('stands on the side of every edge on which the ratio stands', () => {
    const edges = [1, 1.3, 1.85, 2.75]
    const nearEdge = fc.tuple(fc.constantFrom(...edges), fc.double({ min: -0.02, max: 0.02, noNaN: true })).map(([edge, d]) => edge + d)
    fc.assert(fc.property(nearEdge, (ratio) => {
      fc.pre(edges.every((edge) => ratio === edge || Math.abs(ratio - edge) > 1e-9))
      const printed = Number(formatRatio(ratio, edges))
      for (const edge of edges) expect(Math.sign(printed - edge)).toBe(Math.sign(ratio - edge))
    }))
  })
})
