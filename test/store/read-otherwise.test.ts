import { beforeAll, describe, expect, it } from 'vitest'
import { previewFile } from '@/lib/cases/preview-file'
import { rejectedRowsCsv } from '@/lib/cases/rejected-rows-csv'
import { undoImport } from '@/lib/cases/undo-import'
import { guessMapping, type Mapping } from '@/lib/intake'
import { listUrgent } from '@/lib/store/urgent'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, report, reading, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const live = async () => (await database().row<{ n: number }>(sql`SELECT count(*) AS n FROM reading WHERE NOT withdrawn`))?.n
/** Rows as instruments give them: no id of their own, and a header for the conductor that nobody would guess. */
const row = (eastM: number, more: Record<string, string | number> = {}) => {
  const { reading_id: _, conductor_uohm: conductor, ...rest } = reading('x', eastM, more)
  return { ...rest, 'Kond wert': conductor ?? '' }
}
const rows = [row(450), row(1050, { phase: 'B', side_a_uohm: 70 }), row(1650, { phase: 'C', taken_at: '' })]
const text = csv(rows)
const mapped = (content: string): Mapping => {
  const guess = guessMapping(content.split('\r\n')[0]!.split(','), [], 'readings')
  return { ...guess, columns: [...guess.columns.filter(({ column }) => column !== 'Kond wert'), { column: 'Kond wert', field: 'conductor_uohm', unit: 'uohm' }] }
}

describe('a file that is imported again with a better mapping', () => {
  it('adds no second reading of a measurement, and says which import to undo', async () => {
    const first = await report('readings', text, { survey: 'Spring' }, 'spring.csv')
    expect(first).toMatchObject({ read: 3, rejected: 0, ignored_columns: [expect.objectContaining({ column: 'Kond wert' })] })
    const again = await report('readings', text, { survey: 'Spring', mapping: mapped(text) }, 'spring.csv')
    expect(again).toMatchObject({ rows: 3, read: 0, rejected: 3, review: 0, placed: 0 })
    expect(again.issues.filter(({ code }) => code === 'read-otherwise')).toHaveLength(3)
    expect(again.issues).toContainEqual(expect.objectContaining({
      severity: 'error', row: 1, code: 'read-otherwise',
      message: `Row 1, line 2: This measurement is already held, read with another mapping or other values, by import ${first.import_id} (spring.csv): one measurement is evidence once.`,
      remedy: expect.stringContaining(`Undo import ${first.import_id} first, then import this file again.`),
    }))
    expect(await live()).toBe(3)
    const preview = await previewFile(scope, { fileName: 'spring.csv', survey: 'Spring', mapping: mapped(text) }, Buffer.from(text))
    expect(preview.notes[0]).toBe(`Of the first rows, 3 measurements are held already by import ${first.import_id} (spring.csv), read with another mapping or other values, `
      + `and would not be read again. Undo import ${first.import_id} first, then import this file.`)
    expect(preview.rows.map(({ becomes }) => becomes.state)).toEqual(['rejected', 'rejected', 'rejected'])
    expect(preview.rows[0]?.issues[0]).toMatchObject({ severity: 'error', row: 1, code: 'read-otherwise', message: again.issues[0]?.message })
    expect(await report('readings', text, { survey: 'Spring', mapping: mapped(text), dryRun: true }, 'spring.csv')).toMatchObject({ rejected: 3 })
    const asBefore = await previewFile(scope, { fileName: 'spring.csv', survey: 'Spring', mapping: guessMapping(text.split('\r\n')[0]!.split(','), [], 'readings') }, Buffer.from(text))
    expect(asBefore.rows.every(({ becomes }) => becomes.held)).toBe(true)

    let given = ''
    for await (const line of (await rejectedRowsCsv(scope, again.import_id))!.lines) given += line
    for (const line of text.split('\r\n').slice(1)) expect(given).toContain(line)

    await undoImport(scope, first.import_id, 'tester')
    expect(await report('readings', text, { survey: 'Spring', mapping: mapped(text) }, 'spring.csv')).toMatchObject({ read: 3, rejected: 0 })
    expect(await live()).toBe(3)
  })

  it('calls once about a measurement that was announced as it was read first', async () => {
    const bad = csv([row(2250, { side_a_uohm: 80 })])
    const first = await report('readings', bad, { survey: 'Bad', mapping: mapped(bad) }, 'bad.csv')
    expect(first.urgent).toMatchObject([{ class: 'critical' }])
    const other = { ...mapped(bad), columns: mapped(bad).columns.map((one) => (one.column === 'platform' ? { ...one, field: null } : one)) }
    const again = await report('readings', bad, { survey: 'Bad', mapping: other }, 'bad.csv')
    const [looked] = (await previewFile(scope, { fileName: 'bad.csv', survey: 'Bad', mapping: other }, Buffer.from(bad))).rows
    expect(looked?.becomes).toMatchObject({ state: 'rejected', own_class: 'critical', held: true })
    expect(again).toMatchObject({ rejected: 1, urgent: [{ notice_id: first.urgent[0]?.notice_id }], met_notices: [first.urgent[0]?.notice_id] })
    expect((await listUrgent(scope)).filter(({ survey }) => survey === 'Bad')).toHaveLength(1)
  })

  it('calls about one whose numbers show only now what they are', async () => {
    const bad = csv([row(2550, { side_a_uohm: 80, lon: -113, lat: 48, nr: 1 })]) // on no line: no conductor on record; other columns: nothing is remembered of them
    expect((await report('readings', bad, { survey: 'Now' }, 'now.csv')).urgent).toEqual([])
    const again = await report('readings', bad, { survey: 'Now', mapping: mapped(bad) }, 'now.csv')
    expect(again).toMatchObject({ rejected: 1, urgent: [{ class: 'critical', reading_id: null }] })
  })
})

describe('another export of the same survey', () => {
  it('adds nothing where moment, place and values are the same, whatever else is read of it', async () => {
    const { reading_id: _, ...bare } = reading('x', 2850)
    await report('readings', csv([bare]), { survey: 'Exports' }, 'one.csv')
    expect(await report('readings', csv([{ ...bare, conductor_uohm: 22.4 }]), { survey: 'Exports' }, 'two.csv')).toMatchObject({ read: 0, rejected: 1 })
  })

  it('adds what was measured at another time or place, in another repeat, or has an id of its own', async () => {
    const { reading_id: _, ...bare } = reading('x', 2850)
    const others = [
      { ...bare, taken_at: '2026-06-01T10:00:01Z' }, { ...bare, phase: 'B' }, { ...bare, lon: Number(bare.lon) + 0.001 }, { ...bare, side_b_uohm: 11.1 },
      { ...bare, reading_id: 'own-1', conductor_uohm: 22.6 },
    ]
    expect(await report('readings', csv(others), { survey: 'Exports' }, 'three.csv')).toMatchObject({ read: 5, rejected: 0, already_held: 0 })
  })
})
