import { beforeAll, describe, expect, it } from 'vitest'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'
import { importReadingsArray } from '@/lib/cases/import-readings-array'
import { previewFile } from '@/lib/cases/preview-file'
import { undoImport } from '@/lib/cases/undo-import'
import { importStatus } from '@/lib/contract/contract'
import { reportText } from '@/lib/launch/report-text'
import { importAsOfNow } from '@/lib/store/import-as-of-now'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, reading, report, scope } from './utility'

useDatabase()

const rows = [reading('a', 450), reading('b', 1050, { phase: 'B' }), reading('c', 1650, { phase: 'C' })]
const text = csv(rows)
const stored = async () => (await database().row<{ n: number }>(sql`SELECT count(*) AS n FROM reading WHERE NOT withdrawn`))?.n
let springId = 0

beforeAll(async () => {
  await buildNetwork()
  springId = (await report('readings', text, { survey: 'Spring' }, 'campaign.csv')).import_id
})

const REMARK = () => new RegExp(`^File: 3 readings are stored already, value for value, under survey Spring, imported on \\d+ \\w+ \\d{4} as import ${springId} `
  + '\\(campaign.csv\\); the first is row 1\\. They are not stored again')

describe('the same file under another survey', () => {
  it('is said in the preview, of the file and of each row', async () => {
    const preview = await previewFile(scope, { fileName: 'campaign.csv', survey: 'Autumn' }, Buffer.from(text))
    expect(preview.notes[0]).toMatch(/^Of the first rows, 3 readings are stored already, value for value, under survey Spring, imported on .* as import \d+ \(campaign.csv\)/)
    expect(preview.rows.every(({ becomes }) => becomes.held)).toBe(true)
    expect(preview.rows.map((row) => row.becomes.text)).toEqual(Array.from({ length: 3 }, () => expect.stringMatching(/^Nothing new: it is stored already under survey Spring/)))
    const same = await previewFile(scope, { fileName: 'campaign.csv', survey: 'Spring' }, Buffer.from(text))
    expect(same.notes.join()).not.toContain('stored already')
    expect(same.rows[0]?.becomes.text).toContain('Nothing new')
  })

  it('is said by a dry run and by the report, and by the command in words', async () => {
    for (const dryRun of [true, false]) {
      const r = await report('readings', text, { survey: 'Autumn', dryRun }, 'copy.csv')
      expect(r).toMatchObject({ rows: 3, read: 3, rejected: 0, already_held: 3, placed: 0, new_splices: 0 })
      expect(r.issues).toContainEqual(expect.objectContaining({
        severity: 'warning', row: 0, field: 'survey', value: 'Spring', code: 'known-in-other-survey', message: expect.stringMatching(REMARK()),
      }))
      expect(reportText('copy.csv', r)).toContain('warning: File: 3 readings are stored already')
    }
  })

  it('is no more evidence than before', async () => {
    expect(await stored()).toBe(3)
    expect((await listSplices(scope)).items.map((s) => s.reading_count)).toEqual([1, 1, 1])
  })

  it('is known as the same in other columns, units and order too', async () => {
    const other = csv(rows.toReversed().map(({ reading_id: _id, side_a_uohm: a, ...rest }, i) => ({ no: i, 'side A (milliohm)': Number(a) / 1000, ...rest })))
    expect(await report('readings', other, { survey: 'Other columns' })).toMatchObject({ rows: 3, read: 3, already_held: 3, placed: 0 })
  })

  it('brings what is new in it', async () => {
    const r = await report('readings', csv([...rows, reading('d', 450, { taken_at: '2026-06-02T10:00:00Z' })]), { survey: 'Autumn' })
    expect(r).toMatchObject({ rows: 4, read: 4, already_held: 3, placed: 1 })
  })

  it('comes by the API as well', async () => {
    const sent = await importReadingsArray(scope, rows, { survey: 'Program', actor: 'tester' })
    expect(sent).toMatchObject({ ok: true, value: { report: { already_held: 3, placed: 0 } } })
  })
})

describe('an urgent reading that comes again', () => {
  const bad = csv([reading('hot', 2250, { taken_at: '2026-06-05T10:00:00Z', side_a_uohm: 80 })])

  it('is called about until the control room was told, whatever its survey and file are called', async () => {
    const first = await report('readings', bad, { survey: 'Hot' }, 'hot.csv')
    const [notice] = first.urgent
    expect(first.met_notices).toBeUndefined()
    const copy = await report('readings', bad, { survey: 'Copy of hot' }, 'copy.csv')
    expect(copy).toMatchObject({ already_held: 1, placed: 0, urgent: [{ notice_id: notice?.notice_id, acknowledged_at: null }], met_notices: [notice?.notice_id] })
    expect(reportText('copy.csv', copy)).toMatch(/^CALL THE CONTROL ROOM NOW: 1 reading is urgent or critical/)
    const sameSurvey = `${bad.trimEnd()}\r\n\r\n`
    for (const more of [{ survey: 'Hot' }, { survey: 'Third', dryRun: true }]) {
      expect(await report('readings', sameSurvey, more, 'third.csv')).toMatchObject({ already_held: 1, urgent: [{ notice_id: notice?.notice_id }] })
    }
    expect((await listUrgent(scope)).filter(({ reading_key: key }) => key === 'hot')).toHaveLength(1)
    expect(importStatus.parse(await importAsOfNow(scope, copy.import_id)).report?.urgent).toMatchObject([{ notice_id: notice?.notice_id, acknowledged_at: null }])

    await acknowledgeUrgent(scope, { noticeId: notice?.notice_id ?? 0 }, 'operator', { told_to: 'Desk 2' })
    expect(await report('readings', bad, { survey: 'Told' }, 'told.csv')).toMatchObject({ already_held: 1, urgent: [] })
    expect((await importAsOfNow(scope, copy.import_id))?.report?.urgent).toMatchObject([{ told_to: 'Desk 2' }])
  })
})

describe('one file', () => {
  it('that names the same reading under two surveys holds it once', async () => {
    const one = { taken_at: '2026-06-03T10:00:00Z' }
    const r = await report('readings', csv([{ ...reading('x', 450, one), survey: 'North' }, { ...reading('x', 450, one), survey: 'South' }]))
    expect(r).toMatchObject({ rows: 2, read: 2, already_held: 0, repeated: 1, placed: 1 })
    expect(r.issues.find((issue) => issue.code === 'known-in-other-survey')?.message).toMatch(/^File: the reading of row 2 is stored already, .* under survey North/)
  })

  it('may hold the same values twice under two names of one survey: repeats are measured so', async () => {
    const one = { taken_at: '2026-06-04T10:00:00Z' }
    expect(await report('readings', csv([reading('y1', 450, one), reading('y2', 450, one)]), { survey: 'Repeats' })).toMatchObject({ already_held: 0, placed: 2 })
  })
})

describe('after the earlier import was undone', () => {
  it('the same file is read anew, although it was imported before', async () => {
    expect((await undoImport(scope, springId, 'tester')).ok).toBe(true)
    const again = await importText('readings', text, { survey: 'Autumn' }, 'copy.csv')
    expect(again.again).toBe(false)
    expect(again.report).toMatchObject({ rows: 3, read: 3, already_held: 0, placed: 3 })
    expect((await importText('readings', text, { survey: 'Autumn' }, 'copy.csv'))).toMatchObject({ again: true, report: { placed: 3 } })
  })
})
