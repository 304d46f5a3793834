import { beforeAll, describe, expect, it } from 'vitest'
import { undoImport } from '@/lib/cases/undo-import'
import { reportText } from '@/lib/launch/report-text'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, reading, report, scope } from './utility'

useDatabase()

/** Three splices with the same rounded readings, told apart by columns that nobody understood. */
const measured = { side_a_uohm: 13.6, side_b_uohm: 12.5, conductor_uohm: 21.5 }
const rows = ['tower 4', 'tower 9', 'tower 12'].map((beside, i) => ({ badge: `T-${i + 1}`, beside, ...measured }))
const stored = async () => (await database().row<{ n: number }>(sql`SELECT count(*) AS n FROM reading WHERE NOT withdrawn`))?.n
let firstId = 0

beforeAll(buildNetwork)

describe('rows with the same values, no time and no position', () => {
  it('are each a reading, and none is said to be held already', async () => {
    const r = await report('readings', csv(rows), { survey: 'Rounded' }, 'c.csv')
    firstId = r.import_id
    expect(r).toMatchObject({ rows: 3, read: 3, rejected: 0, already_held: 0, repeated: 0, review: 3 })
    expect(await stored()).toBe(3)
    expect(reportText('c.csv', r)).toContain('were each kept as a reading')
  })

  it('change nothing when they come again, whatever their file and survey are called', async () => {
    expect(await importText('readings', csv(rows), { survey: 'Rounded' }, 'c.csv')).toMatchObject({ again: true })
    expect(await report('readings', csv(rows.toReversed()), { survey: 'Rounded' }, 'd.csv')).toMatchObject({ read: 3, already_held: 3, review: 0 })
    expect(await report('readings', csv(rows), { survey: 'Other' }, 'e.csv')).toMatchObject({ read: 3, already_held: 3, review: 0 })
    expect(await stored()).toBe(3)
  })

  it('bring what is one more of them', async () => {
    const r = await report('readings', csv([...rows, { badge: 'T-4', beside: 'tower 15', ...measured }]), { survey: 'Rounded' }, 'f.csv')
    expect(r).toMatchObject({ rows: 4, read: 4, already_held: 3, review: 1 })
    expect((await undoImport(scope, r.import_id, 'tester')).ok).toBe(true)
    expect(await stored()).toBe(3)
  })

  it('are all read anew after an undo', async () => {
    expect((await undoImport(scope, firstId, 'tester')).ok).toBe(true)
    expect(await stored()).toBe(0)
    expect(await report('readings', csv(rows), { survey: 'Rounded' }, 'c.csv')).toMatchObject({ read: 3, already_held: 0, review: 3 })
  })

  it('are each kept under two surveys of one file too', async () => {
    const r = await report('readings', csv([{ survey: 'North', ...measured, side_a_uohm: 14 }, { survey: 'South', ...measured, side_a_uohm: 14 }]))
    expect(r).toMatchObject({ read: 2, already_held: 0, repeated: 0, review: 2 })
  })

  it('are each kept where only the day is known', async () => {
    const { reading_id: _id, ...day } = reading('x', 450, { taken_at: '2026-05-07' })
    expect(await report('readings', csv([day, day]), { survey: 'Days' })).toMatchObject({ read: 2, already_held: 0, repeated: 0, placed: 2 })
  })
})

describe('rows of the same second, position and values', () => {
  it('count once, and the report names each that is a copy', async () => {
    const { reading_id: _id, ...copy } = reading('x', 1050)
    const r = await report('readings', csv([copy, copy, copy]), { survey: 'Copies' }, 'copies.csv')
    expect(r).toMatchObject({ rows: 3, read: 3, already_held: 0, repeated: 2, placed: 1 })
    expect(r.issues.filter(({ code }) => code === 'repeated-row').map(({ row }) => row)).toEqual([2, 3])
    expect(reportText('copies.csv', r)).toContain('2 the same as another row')
  })
})
