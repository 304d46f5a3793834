import { describe, expect, it } from 'vitest'
import { comparedA, governingLimit, overA, passedBy, type GoverningLimit, type RegisteredLimit } from '@/lib/condition/governing-limit'
import { reviewDueMs } from '@/lib/condition/limit-lapse'
import { defaultPolicy } from '@/lib/condition'

/** Expectations: common practice with a register of limits in force; one limit is shown to operations, the one that was read back. */
const one = (standing: RegisteredLimit['standing'], lineA = 500): RegisteredLimit => ({ standing, lineA })
const governing = (register: RegisteredLimit[], advisedA: number | null): GoverningLimit => {
  const found = governingLimit(register, advisedA)
  if (!found) throw new Error('Nothing governs.')
  return found
}

describe('what governs', () => {
  it('is the limit in force, whichever of it and the advised figure is the lower', () => {
    expect(governing([one('in-force')], 686.5)).toEqual({ kind: 'in-force', lineA: 500, advisedA: 686.5, advisedIsLower: false })
    expect(governing([one('lifted', 300), one('in-force')], 450)).toMatchObject({ kind: 'in-force', lineA: 500, advisedIsLower: true })
    expect(governing([one('in-force')], null)).toMatchObject({ kind: 'in-force', advisedIsLower: false })
  })

  it('counts whole amperes: a limit of the advised figure as it was read out is not above it', () => {
    expect(governing([one('in-force', 686)], 686.2)).toMatchObject({ advisedIsLower: false })
    expect(governing([one('in-force', 687)], 686.9)).toMatchObject({ advisedIsLower: true })
  })

  it('is the advised figure where a limit is proposed, agreed or lifted only, and nothing where there is none', () => {
    for (const standing of ['proposed', 'agreed', 'lifted'] as const) expect(governing([one(standing)], 686.5)).toEqual({ kind: 'advised', lineA: 686.5 })
    expect(governingLimit([one('proposed')], null)).toBeNull()
  })

  it('asks the engineer where a limit has lapsed, and holds flows against the lower of both until then', () => {
    expect(governing([one('ask-engineer')], 686.5)).toEqual({ kind: 'ask-engineer', lapsedA: 500, advisedA: 686.5 })
    expect(comparedA(governing([one('ask-engineer')], 686.5))).toBe(500)
    expect(comparedA(governing([one('ask-engineer')], 450.7))).toBe(450.7)
    expect(comparedA(governing([one('ask-engineer')], null))).toBe(500)
  })
})

describe('flows against what governs', () => {
  it('pass the limit in force where they are under the advised figure', () => {
    expect(passedBy(governing([one('in-force')], 686.5), { presentA: 480, expectedPeakA: 546, postContingencyA: 783 })).toEqual([
      { flow: 'expectedPeakA', currentA: 546, overA: 46 }, { flow: 'postContingencyA', currentA: 783, overA: 283 },
    ])
    expect(passedBy(governing([], 686.5), { expectedPeakA: 546 })).toEqual([])
    expect(passedBy(null, { expectedPeakA: 546 })).toEqual([])
  })

  it('are counted from the whole amperes that stand on the sheet', () => {
    expect(overA(governing([], 686.53), 687)).toBe(1)
    expect(overA(governing([], 686.53), 686)).toBe(0)
  })
})

describe('the review of a limit that is set now', () => {
  const DAY_MS = 86_400_000
  const daysTo = (repairDueDays?: number) => reviewDueMs(0, defaultPolicy, repairDueDays === undefined ? undefined : repairDueDays * DAY_MS) / DAY_MS

  it('is after thirty days (a setting), and no later than the repair is due', () => {
    expect(daysTo()).toBe(30)
    expect(daysTo(90)).toBe(30)
    expect(daysTo(2)).toBe(2)
  })

  it('is within the 72 hours of a critical splice (a setting) where that day is over', () => {
    expect(daysTo(-10)).toBe(3)
  })
})
