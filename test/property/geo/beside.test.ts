import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { abreastOf, sharedStretches, type SharedStructure } from '@/lib/geo'

const at = (lineDistanceM: number, besideLineDistanceM: number, besideSectionId = 2): SharedStructure => ({ sectionId: 1, lineDistanceM, besideSectionId, besideLineDistanceM })

describe('two lines on the same structures', () => {
  it('are abreast by shares between structures that carry both, whichever way either is counted', () => {
    const spans = fc.array(fc.double({ min: 50, max: 600, noNaN: true }), { minLength: 1, maxLength: 30 })
    fc.assert(fc.property(spans, fc.boolean(), fc.double({ min: 0, max: 0.999, noNaN: true }), fc.double({ min: 0.99, max: 1.01, noNaN: true }), (lengths, reversed, share, longer) => {
      const ends = lengths.reduce((all, length) => [...all, (all.at(-1) ?? 0) + length], [100])
      const wholeM = ends.at(-1) ?? 0
      const beside = (m: number) => longer * (reversed ? wholeM - m : m) + 5_000
      const stretches = sharedStretches(ends.map((m) => at(m, beside(m))))
      expect(stretches).toHaveLength(lengths.length)
      const m = 100 + share * (wholeM - 100)
      expect(abreastOf(stretches, 2, beside(m))?.lineDistanceM).toBeCloseTo(m, 6)
      expect(abreastOf(stretches, 3, beside(m))).toBeNull()
      expect(abreastOf(stretches, 2, beside(wholeM) + (reversed ? -1 : 1) * 5)).toBeNull()
    }))
  })

  it('are not beside each other where they only cross, nor where one takes another way between two structures they share', () => {
    expect(sharedStretches([at(700, 300)])).toEqual([])
    expect(sharedStretches([at(700, 300), at(1200, 4300)])).toEqual([])
    expect(sharedStretches([at(700, 300), at(1000, 600, 3)])).toEqual([])
    expect(sharedStretches([at(1000, 610), at(700, 300)])).toEqual([
      { sectionId: 1, fromM: 700, toM: 1000, besideSectionId: 2, besideFromM: 300, besideToM: 610 },
    ])
  })
})
