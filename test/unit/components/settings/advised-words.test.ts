import { expect, it } from 'vitest'
import { advisedCounts, advisedStep } from '@/components/settings/advised-words'

const NONE = { rise: 0, fall: 0, none_before: 0, none_after: 0, acute: 0, over_in_force: 0, total: 0, splices: [] }
const STEP = { id: 1, splice: 'a', class: 'critical' as const, from_a: 686, to_a: 723, in_force_a: null, over_in_force: false }

it('says how many rise, fall, get and lose a figure', () => {
  expect(advisedCounts({ ...NONE, rise: 1200, fall: 1 })).toBe('1,200 rise, 1 falls')
  expect(advisedCounts({ ...NONE, rise: 1, none_before: 2, none_after: 1 })).toBe('1 rises, 2 get a figure, 1 loses its figure')
})

it('says from which to which, and what it would rise above', () => {
  expect(advisedStep(STEP)).toBe('686 A → 723 A')
  expect(advisedStep({ ...STEP, in_force_a: 690, over_in_force: true })).toBe('686 A → 723 A, above its limit in force of 690 A')
  expect(advisedStep({ ...STEP, to_a: null })).toBe('686 A → no figure')
})
