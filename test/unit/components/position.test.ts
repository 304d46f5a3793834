import { formatMonth } from '@/lib/units/time'
import { describe, expect, it } from 'vitest'
import { ageText } from '@/components/splice/age'
import { coordinateText, positionText, sideName, spanText } from '@/components/splice/position'
import { summary } from '@/test/fixtures/components/samples'

describe('a position in the trade\'s words', () => {
  it('names the span, the distance ahead of the structure behind, the phase and the circuit side, in the user\'s units', () => {
    const splice = summary({ phase: 'A', circuit_side: 'left' })
    expect(positionText(splice, 'metric')).toBe('STR 45-46 + 123 m, phase A, left circuit')
    expect(positionText(splice, 'us')).toBe('STR 45-46 + 404 ft, phase A, left circuit')
  })

  it('is told in whole feet or meters, and at the structure within 10 ft of it: no receiver tells less', () => {
    expect(positionText(summary({ offset_m: 3.2 }), 'us')).toBe('STR 45-46 + 10 ft, phase B')
    expect(positionText(summary({ offset_m: 1.0 }), 'us')).toBe('STR 45-46, at STR 45, phase B')
    expect(positionText(summary({ offset_m: 2.5 }), 'metric')).toBe('STR 45-46, at STR 45, phase B')
  })

  it('shows the position with "phase not confirmed" rather than guess a phase', () => {
    expect(positionText(summary({ phase: null, position: 'top' }), 'metric')).toBe('STR 45-46 + 123 m, top, phase not confirmed')
    expect(positionText(summary({ phase: null }), 'metric')).toBe('STR 45-46 + 123 m, phase not confirmed')
  })

  it('writes the utility\'s own letters', () => {
    expect(positionText(summary({ phase: 'C' }), 'metric', { A: 'R', B: 'S', C: 'T' })).toContain('phase T')
  })

  it('never invents a structure number', () => {
    expect(spanText(null, null)).toBeNull()
    const unnamed = positionText(summary({ structure_back: null, structure_ahead: null }), 'metric')
    expect(unnamed).toBe('line distance 13.12 km, phase B')
    expect(unnamed).not.toContain('STR')
    expect(positionText(summary({ structure_ahead: null }), 'metric')).toBe('STR 45, ahead + 123 m, phase B')
  })

  it('says which structure each side faces: A the lower line distance', () => {
    expect(sideName('A', summary())).toBe('Side A, toward STR 45')
    expect(sideName('B', summary())).toBe('Side B, toward STR 46')
    expect(sideName('A', summary({ structure_back: null }))).toBe('Side A, back')
    expect(sideName('B', summary({ kind: 'dead-end' }))).toBe('Side B, pad to terminal')
    expect(sideName('A', summary({ kind: 'parallel-groove' }))).toBe('Side A, conductor A')
  })

  it('writes latitude first, to a decimetre', () => {
    expect(coordinateText(-112.1234567, 46.7)).toBe('46.700000, -112.123457')
  })
})

describe('the age of a reading', () => {
  const now = Date.parse('2026-11-24T12:00:00Z')
  it('stands in the largest unit that fits', () => {
    expect(ageText(now - 3_600_000, now)).toBe('today')
    expect(ageText(now - 3 * 86_400_000, now)).toBe('3 d')
    expect(ageText(Date.parse('2026-05-24T12:00:00Z'), now)).toBe('6 mo')
    expect(ageText(Date.parse('2022-11-24T12:00:00Z'), now)).toBe('4.0 y')
  })
  it('takes the month of the zone where it is read', () => {
    expect(formatMonth(Date.parse('2026-03-01T02:00:00Z'), 'America/Denver')).toBe('Feb 2026')
  })
})
