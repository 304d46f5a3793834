import { beforeAll, describe, expect, it } from 'vitest'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'
import { reviewItem } from '@/lib/contract/contract'
import { urgentReading } from '@/lib/contract/urgent'
import { reportText } from '@/lib/launch/report-text'
import { getReviewItem } from '@/lib/store/readings'
import { getSplice } from '@/lib/store/splice-detail'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()
beforeAll(async () => {
  await buildNetwork()
  await importText('lines', linesFile([lineFeature('N1', 9_000, { conductor: '' })]), {}, 'bare.geojson')
})

/** Circuit S1 hangs on Drake: 22.3 µΩ over 0.3048 m at 25 °C. Nobody knows what N1 hangs on. */
const slip = (id: string, eastM: number, typed: string | number, more: object = {}) => reading(id, eastM, { side_a_uohm: 80, conductor_uohm: typed, ...more })

describe('a slip of the pen beside the sides', () => {
  it('is named and leaves the reading read, provisional against the table, and the alarm says so', async () => {
    const told = await report('readings', csv([slip('minus', 450, -5), slip('nought', 1050, 0), slip('far', 1650, 900_000)]), { survey: 'Slips' })
    expect(told).toMatchObject({ rows: 3, read: 3, rejected: 0 })
    const slips = told.issues.filter(({ field }) => field === 'conductor_uohm')
    expect(slips.map(({ row, severity, value, code }) => [row, severity, value, code])).toEqual([
      [1, 'warning', '-5', 'not-positive'], [2, 'warning', '0', 'not-positive'], [3, 'warning', '900000', 'out-of-range'],
    ])
    expect(slips.every(({ remedy }) => remedy !== '')).toBe(true)
    const alarms = told.urgent.map((one) => urgentReading.parse(one))
    expect(alarms.map((one) => [one.reading_key, one.class, one.by_table?.conductor, one.by_table?.typed]).sort()).toEqual([
      ['far', 'critical', 'Drake', '900000'], ['minus', 'critical', 'Drake', '-5'], ['nought', 'critical', 'Drake', '0'],
    ])
    expect(alarms[0]?.ratio).toBeCloseTo(80 / 22.2945, 3)
    for (const { splice_id: id } of alarms) {
      const splice = await getSplice(scope, id ?? 0)
      expect(splice).toMatchObject({ class: 'critical', confidence: 'low' })
      expect(splice?.flags).toEqual(expect.arrayContaining(['conductor-from-table', 'provisional']))
      expect(splice?.readings[0]?.fields.conductor_unusable).toBeDefined()
    }
  })

  it('keeps the sides where no conductor is on record, and is unknown, never sound', async () => {
    const told = await report('readings', csv([slip('bare', 450, -5, { lat: reading('', 0).lat! as number + 4_000 / 111_170 })]), { survey: 'Bare' })
    expect(told).toMatchObject({ read: 1, rejected: 0, placed: 1, urgent: [] })
    const [splice] = await database().rows<{ splice_id: number }>(sql`
      SELECT p.splice_id FROM reading r JOIN placement p ON p.reading_id = r.id AND p.current WHERE r.reading_key = 'bare' AND r.side_a_uohm = 80`)
    expect(await getSplice(scope, splice?.splice_id ?? 0)).toMatchObject({ class: 'unknown' })
  })
})

describe('a call that rests on the table', () => {
  it('says so in the report, and its splice is never called with high confidence', async () => {
    const told = await report('readings', csv([slip('none', 2250, '')]), { survey: 'By table' })
    const [only] = told.urgent
    expect(only).toMatchObject({ class: 'critical', by_table: { conductor: 'Drake', uohm: expect.closeTo(22.2945, 3) }, provisional: null })
    expect(only?.by_table?.typed).toBeUndefined()
    const text = reportText('a.csv', told)
    expect(text).toContain("critical, ratio 3.59 by the table's conductor, not measured: reading none of By table, S1 STR")
    expect(text).toContain('22.3 µΩ of Drake over the electrode span, since none was measured')
    expect((await getSplice(scope, only?.splice_id ?? 0))?.confidence).not.toBe('high')
  })

  it('is by the assessment as much as by a reading', async () => {
    const urgent = { side_a_uohm: '', conductor_uohm: '' }
    const told = await report('readings', csv([reading('a', 2850, { ...urgent, side_b_uohm: 43 })]), { survey: 'Assessed' })
    for (const one of told.urgent) expect(one.by_table).toMatchObject({ conductor: 'Drake' })
    expect(told.urgent.length).toBeGreaterThan(0)
  })
})

describe('the same file again', () => {
  it('says what was announced already, and whether the control room was told', async () => {
    const text = csv([reading('told', 150, { side_a_uohm: 90 }), reading('untold', 750, { side_a_uohm: 90 }), reading('bad', 1350, { side_a_uohm: 90, taken_at: 'x' })])
    const first = await importText('readings', text, { survey: 'Again' })
    expect(reportText('a.csv', first.report)).toMatch(/^CALL THE CONTROL ROOM NOW: 2 readings and 1 row that was not read are urgent or critical/)
    const told = first.report.urgent.find((one) => one.reading_key === 'told')
    await acknowledgeUrgent(scope, { noticeId: told?.notice_id ?? 0 }, 'operator')
    const again = await importText('readings', text, { survey: 'Again' })
    expect(again.again).toBe(true)
    const said = reportText('a.csv', again.report, { again: true, timeZone: 'UTC' })
    expect(said).not.toContain('CALL THE CONTROL ROOM NOW')
    expect(said).toMatch(/^ALREADY ANNOUNCED, NOT YET TOLD: call the control room now where nobody has\. 1 reading and 1 row that was not read are/)
    expect(said).toMatch(/ALREADY ANNOUNCED, and the control room was told of it:\n {2}critical, ratio 4\.13: reading told of Again, .*; told .* UTC, noted by operator/)
    expect(said).toMatch(/row 3 of readings\.txt, not read \(reading bad of Again\)[^]*Not read: Row 3, line 4, taken_at: 'x'/)
  })
})

describe('the review queue', () => {
  it('knows the class of what cannot wait, and whether the control room was told', async () => {
    const told = await report('readings', csv([reading('adrift', 450, { side_a_uohm: 90, lat: 47.9, circuit: 'S1' })]), { survey: 'Adrift' })
    const id = told.urgent[0]?.reading_id ?? 0
    expect(reviewItem.parse(await getReviewItem(scope, id))).toMatchObject({ urgent: true, notice: { class: 'critical', basis: 'reading', acknowledged_at: null } })
    await acknowledgeUrgent(scope, { readingId: id }, 'operator')
    expect(await getReviewItem(scope, id)).toMatchObject({ notice: { class: 'critical', acknowledged_by: 'operator', acknowledged_at: expect.stringMatching(/^20/) } })
  })

  it('has an infrared picture whose place is not settled and whose own numbers prove a failing splice on the conductor it names', async () => {
    const hot = {
      kind: 'infrared', circuit: 'S1', lat: 47.9, side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '', platform: 'helicopter', splice_temp_c: 150,
      conductor_temp_c: 55, reference_kind: 'own-conductor', ambient_c: 20, wind_m_s: 1, sun: 'none', rain_1h: 'no', line_current_a: 700, current_30min_a: 700,
      emissivity: 0.7, reflected_c: 10, distance_m: 15, view_angle_deg: 10, ifov_mrad: 0.5, band: 'lw',
    }
    const told = await report('readings', csv([reading('picture', 450, hot)]), { survey: 'Flight' })
    expect(told).toMatchObject({ read: 1, review: 1 })
    expect(told.urgent).toMatchObject([{ reading_key: 'picture', basis: 'reading', placement_state: 'review' }])
    expect(await getReviewItem(scope, told.urgent[0]?.reading_id ?? 0)).toMatchObject({ notice: { class: told.urgent[0]?.class } })
  })
})
