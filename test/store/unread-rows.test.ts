import { beforeAll, describe, expect, it } from 'vitest'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'
import { rejectedRowsCsv } from '@/lib/cases/rejected-rows-csv'
import { undoImport } from '@/lib/cases/undo-import'
import { urgentReading, type UrgentReading } from '@/lib/contract/urgent'
import { storeState } from '@/lib/store/state'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, reading, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

/** 80 µΩ against 21.8 µΩ of conductor: 3.67, critical by the default policy. The 31st of February takes no heat out of it. */
const bad = (id: string, eastM: number, more: Record<string, string | number> = {}) => reading(id, eastM, { side_a_uohm: 80, taken_at: '2026-02-31', ...more })
const good = (id: string, eastM: number, more: Record<string, string | number> = {}) => bad(id, eastM, { taken_at: '2026-02-28T10:00:00Z', ...more })

const waiting = async (survey: string): Promise<UrgentReading[]> => (await listUrgent(scope)).map((u) => urgentReading.parse(u)).filter((u) => u.survey === survey)
const read = (survey: string, rows: Record<string, string | number>[], fileName = `${survey}.csv`, more: object = {}) =>
  importText('readings', csv(rows), { survey, ...more }, fileName)
const tell = (notice: UrgentReading | undefined, actor = 'control room') => acknowledgeUrgent(scope, { noticeId: notice?.notice_id ?? 0 }, actor)

async function textOf(lines: AsyncGenerator<string> | undefined): Promise<string> {
  const all: string[] = []
  for await (const line of lines ?? []) all.push(line)
  return all.join('')
}

describe('a row that was not read and cannot wait', () => {
  it('comes before operations with its file, row, place, numbers and why it was not read', async () => {
    const before = (await storeState(scope)).urgent_count
    const { report } = await read('Shown', [reading('fine', 1650), bad('R-9', 450, { circuit: 'S1', structure_back: 'S2', structure_ahead: 'S3', phase: 'B' })])
    expect(report).toMatchObject({ rows: 2, read: 1, rejected: 1 })
    const [only, ...more] = await waiting('Shown')
    expect(more).toEqual([])
    expect(only).toMatchObject({
      reading_id: null, placement_state: null, reading_key: 'R-9', row: 2, class: 'critical', basis: 'row', acknowledged_at: null, position_basis: 'declared',
      circuits: [{ circuit: 'S1' }],
      not_read: {
        file_name: 'Shown.csv', import_id: report.import_id, row: 2, line: 3, undone_at: null, read_since: false,
        says: { circuit: 'S1', structure_back: 'S2', structure_ahead: 'S3', phase: 'B', side_a_uohm: 80, side_b_uohm: 11, conductor_uohm: 21.8 },
      },
    })
    expect(only?.ratio).toBeCloseTo(80 / 21.8, 6)
    expect(only?.position_text).toBe('STR S2-S3, phase B')
    expect(only?.not_read?.why).toEqual([expect.stringMatching(/^Row 2, line 3, taken_at: '2026-02-31'/)])
    expect(report.urgent.map((u) => u.notice_id)).toEqual([only?.notice_id])
    expect((await storeState(scope)).urgent_count).toBe(before + 1)
  })

  it('is found on the lines it may be on where it names none, with the nearest structures', async () => {
    await read('Nearest', [bad('R-1', 450)])
    const [only] = await waiting('Nearest')
    expect(only).toMatchObject({ circuits: [{ circuit: 'S1' }], position_basis: 'nearest', position_text: 'STR S2-S3, phase A' })
  })

  it('raises nothing in a dry run, whose report says it all the same', async () => {
    const { report } = await read('Dry', [bad('R-1', 450)], 'Dry.csv', { dryRun: true })
    expect(report.urgent).toMatchObject([{ reading_id: null, class: 'critical', not_read: { row: 1 } }])
    expect(await waiting('Dry')).toEqual([])
    expect(await database().rows(sql`SELECT FROM unread_row WHERE survey = 'Dry'`)).toEqual([])
  })

  it('is told once, by a name, in the log of the others', async () => {
    await read('Told', [bad('R-1', 450)])
    const [only] = await waiting('Told')
    expect(await tell(only)).toMatchObject({ ok: true, value: { acknowledged_by: 'control room' } })
    expect(await tell(only, 'somebody else')).toMatchObject({ ok: true, value: { acknowledged_by: 'control room' } })
    expect(await waiting('Told')).toEqual([])
    const log = await database().rows(sql`SELECT actor, subject_kind, detail FROM audit_entry WHERE action = 'urgent.acknowledged' AND subject_id = ${only?.notice_id ?? 0}`)
    expect(log).toEqual([{ actor: 'control room', subject_kind: 'notice', detail: { notice_id: only?.notice_id, file: 'Told.csv', row: 1 } }])
  })

  it('is called out where its ohms stand in columns that are not read, whatever the file was said to be, and without its circuit too', async () => {
    const text = 'Ckt,From pole,To pole,Ph,P (uohm),Q (uohm)\nS1,S2,S3,A,12,13\nS1,S3,S4,B,80,12\n,S3,S4,C,90,12\n'
    const { report } = await importText('splices', text, {}, 'Unread-ohms.csv')
    expect(report).toMatchObject({ rows: 3, read: 2, rejected: 1 })
    expect(report.urgent.map(({ not_read: of, class: found, circuits }) => [of?.row, found, circuits.map(({ circuit }) => circuit), of?.says.structure_back]).sort()).toEqual([
      [2, 'critical', ['S1'], 'S3'], [3, 'critical', expect.anything(), 'S3'],
    ])
    const { issues } = report
    expect(issues.filter(({ code }) => code === 'rejected-but-urgent').map(({ row, severity }) => [row, severity]).sort()).toEqual([[2, 'warning'], [3, 'error']])
    expect(issues.find(({ row, code }) => row === 2 && code === 'rejected-but-urgent')?.message).toContain("80 against 12 µΩ stand in 'P (uohm)' and 'Q (uohm)', which are not read")
  })

  it('outlives the undo of its import, which it names', async () => {
    const { report } = await read('Undone', [reading('fine', 1650), bad('R-1', 450)])
    expect(await undoImport(scope, report.import_id, 'tester')).toMatchObject({ ok: true })
    expect(await waiting('Undone')).toMatchObject([{ reading_key: 'R-1', not_read: { file_name: 'Undone.csv', undone_at: expect.stringMatching(/^20/) } }])
  })

  it('is not raised twice by the same file, before and after an undo, nor by another file that holds the row', async () => {
    const rows = [reading('fine', 1650), bad('R-1', 450)]
    const first = await read('Again', rows)
    const [raised] = await waiting('Again')
    expect((await read('Again', rows)).again).toBe(true)
    expect(await waiting('Again')).toHaveLength(1)
    await undoImport(scope, first.report.import_id, 'tester')
    const second = await read('Again', rows)
    expect(second.again).toBe(false)
    await read('Again', [...rows, reading('more', 1950)], 'longer.csv')
    const now = await waiting('Again')
    expect(now.map((u) => [u.notice_id, u.raised_at])).toEqual([[raised?.notice_id, raised?.raised_at]])
    expect(now[0]).toMatchObject({ not_read: { file_name: 'longer.csv', row: 2, undone_at: null } })
    expect(second.report.urgent.map((u) => u.notice_id)).toEqual([raised?.notice_id])
  })

  it('rises where it comes again worse, and is raised anew where the milder one was told', async () => {
    // 45 µΩ against 21.8 µΩ is 2.06: urgent.
    await read('Worse', [bad('R-1', 450, { side_a_uohm: 45 }), bad('R-2', 750, { side_a_uohm: 45 })])
    const [one, two] = (await waiting('Worse')).sort((a, b) => (a.row ?? 0) - (b.row ?? 0))
    expect([one?.class, two?.class]).toEqual(['urgent', 'urgent'])
    await tell(two)
    await read('Worse', [bad('R-1', 450), bad('R-2', 750)], 'worse.csv')
    const now = (await waiting('Worse')).sort((a, b) => (a.row ?? 0) - (b.row ?? 0))
    expect(now.map((u) => [u.reading_key, u.class])).toEqual([['R-1', 'critical'], ['R-2', 'critical']])
    expect(now[0]?.notice_id).toBe(one?.notice_id)
    expect(now[1]?.notice_id).not.toBe(two?.notice_id)
  })

  it('says so of a reading_id that is stored with other values, within a file and across files', async () => {
    const { report } = await read('Ids', [reading('R-1', 450), reading('R-1', 450, { side_a_uohm: 80 })])
    expect(report.urgent).toMatchObject([{ reading_id: null, reading_key: 'R-1', not_read: { row: 2, why: [expect.stringContaining('stood in')] } }])
    const later = await read('Ids', [reading('R-1', 450, { side_a_uohm: 90 })], 'later.csv')
    expect(later.report).toMatchObject({ rejected: 1, urgent: [{ class: 'critical', not_read: { why: [expect.stringContaining('stored already with other values')] } }] })
  })
})

describe('a row that was corrected', () => {
  it('takes its notice over by its reading_id, told or not, and nobody is called twice', async () => {
    await read('Fixed', [bad('R-1', 450), bad('R-2', 750)])
    const [first, second] = (await waiting('Fixed')).sort((a, b) => (a.row ?? 0) - (b.row ?? 0))
    await tell(first)
    const { report } = await read('Fixed', [good('R-1', 450), good('R-2', 750)], 'fixed.csv')
    const now = await waiting('Fixed')
    expect(now).toMatchObject([{
      notice_id: second?.notice_id, reading_key: 'R-2', basis: 'reading', placement_state: 'placed', raised_at: second?.raised_at, not_read: { read_since: true },
    }])
    expect(now[0]?.splice_id).not.toBeNull()
    expect(report.urgent.map((u) => [u.reading_key, u.acknowledged_by])).toEqual([['R-1', 'control room'], ['R-2', null]])
    expect(await tell(now[0])).toMatchObject({ ok: true })
    expect(await waiting('Fixed')).toEqual([])
  })

  it('keeps what was told when it is undone and comes once more', async () => {
    const rows = [reading('fine', 1650), bad('R-1', 450)]
    await read('Once more', rows)
    await tell((await waiting('Once more'))[0])
    const fixed = [good('R-1', 450), reading('other', 1950)]
    const { report } = await read('Once more', fixed, 'fixed.csv')
    await undoImport(scope, report.import_id, 'tester')
    await read('Once more', fixed, 'fixed.csv')
    expect(await waiting('Once more')).toEqual([])
  })

  it('calls again where it is worse than what was told', async () => {
    await read('Worse than told', [bad('R-1', 1350, { side_a_uohm: 45 })])
    await tell((await waiting('Worse than told'))[0])
    await read('Worse than told', [good('R-1', 1350)], 'fixed.csv')
    expect(await waiting('Worse than told')).toMatchObject([{ reading_key: 'R-1', class: 'critical', basis: 'reading' }])
  })

  it('is known without a reading_id by its row in our own file of rejected rows', async () => {
    const withoutId = (row: Record<string, string | number>) => Object.fromEntries(Object.entries(row).filter(([key]) => key !== 'reading_id'))
    const { report } = await read('No ids', [withoutId(reading('', 1650)), withoutId(bad('', 450)), withoutId(bad('', 750, { side_a_uohm: 70 }))])
    const raised = await waiting('No ids')
    expect(raised.map((u) => [u.row, u.reading_key])).toEqual([[2, null], [3, null]])
    await tell(raised[0])
    const text = (await textOf((await rejectedRowsCsv(scope, report.import_id))?.lines)).replaceAll(',2026-02-31,', ',2026-02-28T10:00:00Z,')
    const again = await importText('readings', text, { survey: null }, 'rejected.csv')
    expect(again.report).toMatchObject({ read: 2, rejected: 0 })
    const now = await waiting('No ids')
    expect(now).toMatchObject([{ notice_id: raised[1]?.notice_id, placement_state: 'placed' }])
  })

  it('is known without a reading_id by its row in a file of the same name with the same numbers, and by no other numbers', async () => {
    const withoutId = (row: Record<string, string | number>) => Object.fromEntries(Object.entries(row).filter(([key]) => key !== 'reading_id'))
    await read('Same row', [withoutId(bad('', 450)), withoutId(bad('', 750))])
    const [first, second] = await waiting('Same row')
    await tell(first)
    await tell(second)
    await read('Same row', [withoutId(good('', 450)), withoutId(good('', 750, { side_a_uohm: 81 }))])
    expect(await waiting('Same row')).toMatchObject([{ row: 2, basis: 'reading', not_read: null }])
  })
})

describe('a notice without a reading', () => {
  it('is refused by the database unless it has its row', async () => {
    const alone = database().run(sql`INSERT INTO urgent_notice (class, basis, circuits) VALUES ('critical', 'row', '[]')`)
    await expect(alone).rejects.toThrow(/needs the row/)
    const unfounded = database().run(sql`INSERT INTO urgent_notice (class, basis, circuits) VALUES ('critical', 'reading', '[]')`)
    await expect(unfounded).rejects.toThrow(/urgent_notice_of_something/)
  })
})
