import { describe, expect, it } from 'vitest'
import { openingWords, provisionalText, toldText, waitingThenWorst, withdrawnText } from '@/components/intake/urgent-words'
import type { UrgentReading } from '@/lib/contract/contract'

const urgent = (over: Partial<UrgentReading> = {}): UrgentReading => ({
  notice_id: 1,
  basis: 'reading',
  withdrawn: null,
  reading_id: 1,
  reading_key: 'R-1',
  survey: 'Spring walk',
  class: 'urgent',
  ratio: 2,
  taken_at: null,
  placement_state: 'review',
  splice_id: null,
  splice: null,
  position_text: null,
  lon: null,
  lat: null,
  circuits: [],
  raised_at: '2026-05-05T00:00:00Z',
  acknowledged_at: null,
  acknowledged_by: null,
  ...over,
})

describe('the opening of a report', () => {
  it('puts first whom nobody has been told of, then the worst', () => {
    const readings = [
      urgent({ reading_id: 1, class: 'critical', ratio: 9, acknowledged_at: '2026-05-05T01:00:00Z' }),
      urgent({ reading_id: 2, ratio: 2.4 }),
      urgent({ reading_id: 3, class: 'critical', ratio: 3 }),
      urgent({ reading_id: 4, ratio: null }),
    ]
    expect(readings.toSorted(waitingThenWorst).map((r) => r.reading_id)).toEqual([3, 4, 2, 1])
  })

  it('counts the classes and says who sees them', () => {
    expect(openingWords([urgent(), urgent({ class: 'critical' })], false)).toBe(
      '2 readings, 1 critical and 1 urgent by their own numbers, whether or not the place is settled. Operations sees them already.',
    )
    expect(openingWords([urgent({ class: 'critical' })], true)).toContain('One reading is critical by its own numbers')
    expect(openingWords([urgent()], true)).toContain('operations does not see this yet')
  })

  it('says what nobody has been told of yet, and when everything was told', () => {
    const told = urgent({ reading_id: 2, acknowledged_at: '2026-05-05T01:00:00Z' })
    expect(openingWords([urgent({ class: 'critical' }), told], false)).toBe(
      '2 readings, 1 critical and 1 urgent by their own numbers. Not told yet: 1 critical.',
    )
    expect(openingWords([told, told], false)).toBe(
      '2 readings, 2 urgent by their own numbers, and the control room knows of all of them.',
    )
  })

  it('says so where no reading is urgent by itself', () => {
    expect(openingWords([urgent({ basis: 'assessment' })], false)).toContain('One reading is urgent with what else is known of its splice')
    expect(openingWords([urgent({ basis: 'assessment' }), urgent()], false)).toContain('by their own numbers or with what else is known of the splice')
  })

  it('says when the control room was told and who noted it, and which undo took a reading back', () => {
    expect(toldText(urgent({ acknowledged_at: '2026-05-05T01:00:00Z', acknowledged_by: 'operator' }), 'UTC')).toBe('5 May 2026 01:00 UTC, noted by operator')
    expect(withdrawnText({ file_name: 'spring.csv', at: null })).toBe('reading withdrawn by undo of spring.csv')
  })
})

describe('a provisional finding', () => {
  it('says what the conductor read and what it should have', () => {
    const text = provisionalText(urgent({ provisional: { conductor: 'Drake', conductor_uohm: 80, expected_uohm: 21.854 } }))
    expect(text).toBe('Provisional: the conductor reads 80.0 µΩ, 3.66 times the 21.9 µΩ of Drake over the same electrode span. '
      + 'The lower of the two is taken, since the worse ratio governs.')
    expect(provisionalText(urgent())).toBe('')
  })
})
