import { beforeAll, describe, expect, it } from 'vitest'
import { urgentReading } from '@/lib/contract/urgent'
import { reportText } from '@/lib/launch/report-text'
import { getSplice } from '@/lib/store/splice-detail'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

/** Circuit S1 hangs on Drake: 71.7 µΩ/m at 20 °C, so 22.3 µΩ over 0.3048 m at 25 °C. */
const impossible = { side_a_uohm: 80, conductor_uohm: 80 }

describe('a conductor reading that cannot be right', () => {
  it('is cautioned in a dry run as in the import, and the alarm takes the lower reference', async () => {
    const rows = csv([reading('high', 450, impossible), reading('mild', 1050, { conductor_uohm: 80 }), reading('good', 1650)])
    for (const dryRun of [true, false]) {
      const told = await report('readings', rows, { dryRun, survey: 'Doubt' })
      const cautions = told.issues.filter(({ code }) => code === 'conductor-doubtful')
      expect(cautions.map(({ row, severity }) => [row, severity])).toEqual([[1, 'warning'], [2, 'warning']])
      expect(cautions[0]?.message).toContain('the conductor reads 80.0 µΩ, 3.59 times the 22.3 µΩ of Drake')
      expect(told.rejected).toBe(0)
      const [only, ...more] = told.urgent.map((one) => urgentReading.parse(one))
      expect(more).toEqual([])
      expect(only).toMatchObject({ reading_key: 'high', class: 'critical', basis: 'reading', provisional: { conductor: 'Drake', conductor_uohm: 80 } })
      expect(only?.ratio).toBeCloseTo(80 / 22.2945, 3)
      if (dryRun) continue
      expect(await getSplice(scope, only?.splice_id ?? 0)).toMatchObject({ class: 'critical', confidence: 'low', flags: expect.arrayContaining(['provisional']) })
    }
  })

  it('is announced where its place is not settled, by the conductors it may be on', async () => {
    const told = await report('readings', csv([reading('adrift', 450, { ...impossible, lat: 47.9, circuit: 'S1' })]), { survey: 'Adrift' })
    expect(told.review).toBe(1)
    expect(told.urgent).toEqual([expect.objectContaining({ class: 'critical', placement_state: 'review', provisional: expect.objectContaining({ conductor: 'Drake' }) })])
    expect(told.issues.map(({ code }) => code)).toContain('conductor-doubtful')
  })

  it('is announced where its row is rejected for another fault', async () => {
    const told = await report('readings', csv([reading('refused', 450, { ...impossible, circuit: 'S1', taken_at: '2026-02-31' })]), { survey: 'Refused' })
    expect(told.rejected).toBe(1)
    expect(told.issues.find(({ code }) => code === 'rejected-but-urgent')?.message).toContain('Provisional: the conductor reads 80.0 µΩ')
  })
})

describe('sides and conductor a thousand times too high', () => {
  it('stay an alarm, and the doubt and its remedy name the unit', async () => {
    const { side_a_uohm: _a, side_b_uohm: _b, conductor_uohm: _c, ...place } = reading('milli', 450)
    const text = csv([{ ...place, 'R a (mOhm)': 13.6, 'R b (mOhm)': 12.5, 'R cond (mOhm)': 21.5 }])
    const told = await report('readings', text, { survey: 'Thousand' }, 'thousand.csv')
    expect(told.urgent).toEqual([expect.objectContaining({ class: 'critical', provisional: expect.objectContaining({ unit_factor: 1000 }) })])
    const doubt = told.issues.find(({ code }) => code === 'conductor-doubtful')
    expect(doubt?.message).toContain('Sides and conductor are all about 1,000 times what they would be, so the unit of their columns may be wrong.')
    expect(doubt?.remedy).toContain('taken as µΩ the numbers are in range')
    expect(doubt?.remedy).toContain('--unit side_a_uohm=uohm')
    const words = reportText('thousand.csv', told)
    expect(words).toMatch(/^CALL THE CONTROL ROOM NOW/)
    expect(words.split('\n').slice(0, 4).join()).toContain('1,000 times')
  })

  it('are not said of a splice that is bad beside a conductor that is right', async () => {
    const told = await report('readings', csv([reading('bad', 1050, { side_a_uohm: 13_600 })]), { survey: 'Bad' })
    expect(told.urgent).toHaveLength(1)
    expect(JSON.stringify(told)).not.toContain('1,000 times')
  })
})
