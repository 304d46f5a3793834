import { describe, expect, it } from 'vitest'
import { otherPhasesText } from '@/components/splice/other-phases'
import { comparePhases } from '@/lib/condition/phase-comparison'

const own = { phase: 'B', spliceTempC: 48, lineCurrentA: 600 }
const others = [{ phase: 'A', spliceTempC: 31, lineCurrentA: 590 }, { phase: 'C', spliceTempC: 33, lineCurrentA: 605 }]

/** Supporting evidence with the balance of the currents stated: common practice, no source. */
describe('the same fitting on the other phases', () => {
  it('is compared with their mean', () => expect(comparePhases(own, others)).toEqual({ overOthersK: 16, currents: 'equal' }))
  it('is not compared without one', () => expect(comparePhases(own, [])).toBeNull())

  it('says where the currents were not noted or not balanced', () => {
    expect(comparePhases({ ...own, lineCurrentA: undefined }, others)?.currents).toBe('not-known')
    expect(comparePhases({ ...own, lineCurrentA: 700 }, others)?.currents).toBe('unequal')
  })

  it('reads as a sentence in the units and letters of the reader', () => {
    const json = {
      reading_id: 1, splice_temp_c: 48, line_current_a: 600,
      others: others.map((other, i) => ({ splice_id: i, splice: `${i}`, phase: other.phase, reading_id: i, splice_temp_c: other.spliceTempC, line_current_a: other.lineCurrentA })),
    }
    expect(otherPhasesText(json, 'metric', { A: 'L1', C: 'L3' })).toBe(
      'In this span on the same flight: phase L1 31.0 °C, phase L3 33.0 °C; this one is 16.0 °C hotter than their mean. '
      + 'The phases carried about the same current. Supporting evidence only.',
    )
    expect(otherPhasesText({ ...json, splice_temp_c: 32 }, 'us')).toContain('this one is as warm as their mean')
    expect(otherPhasesText({ ...json, others: [] }, 'us')).toBe('')
  })
})
