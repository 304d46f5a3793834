import { describe, expect, it } from 'vitest'
import { importReport } from '@/lib/contract/contract'
import { importFromStream } from '@/lib/cases/import-from-stream'
import { getImport, listImports } from '@/lib/store/imports'
import { listIssues, rejectedRows } from '@/lib/store/import-issues'
import { sql } from '@/lib/store/sql/sql'
import { listSplices } from '@/lib/store/splices'
import { storeState } from '@/lib/store/state'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, linesFile, reading, report, scope, source, structuresFile } from './utility'

useDatabase()

const count = async (table: 'reading' | 'splice' | 'placement' | 'structure' | 'span' | 'section' | 'assessment') =>
  (await database().row<{ n: number }>(table === 'reading' ? sql`SELECT count(*) AS n FROM reading WHERE NOT withdrawn`
    : table === 'splice' ? sql`SELECT count(*) AS n FROM splice` : table === 'placement' ? sql`SELECT count(*) AS n FROM placement`
      : table === 'structure' ? sql`SELECT count(*) AS n FROM structure` : table === 'span' ? sql`SELECT count(*) AS n FROM span`
        : table === 'section' ? sql`SELECT count(*) AS n FROM section` : sql`SELECT count(*) AS n FROM assessment`))?.n

describe('importing a network', () => {
  it('joins lines to circuits, and structures stand on every circuit they carry', async () => {
    const lines = await report('lines', linesFile())
    expect(lines).toMatchObject({ rows: 3, read: 3, rejected: 0, already_held: 0 })
    const structures = await report('structures', structuresFile())
    expect(structures).toMatchObject({ rows: 33, read: 33, rejected: 0, already_held: 0 })
    expect(await count('section')).toBe(3)
    expect(await count('structure')).toBe(22) // L1 and L2 hang on the same eleven
    expect(await count('span')).toBe(30)
  })

  it('finds nothing new in the same rows in another file', async () => {
    expect(await report('lines', `${linesFile()}\n`)).toMatchObject({ rows: 3, read: 3, already_held: 3 })
    expect(await report('structures', `${structuresFile()}\r\n`)).toMatchObject({ rows: 33, read: 33, already_held: 33 })
    expect(await count('structure')).toBe(22)
    expect(await count('span')).toBe(30)
  })

  it('refuses a structure of an unknown circuit by name and keeps the others', async () => {
    const r = await report('structures', csv([{ circuit: 'NOWHERE', structure: '1', lon: -114, lat: 47 }, { circuit: 'S1', structure: 'S1', lon: -114, lat: 47.044976 }]))
    expect(r).toMatchObject({ rows: 2, read: 1, rejected: 1 })
    expect(r.issues[0]).toMatchObject({ row: 1, code: 'unknown-circuit', severity: 'error' })
  })
})

describe('importing readings', () => {
  const rows = [reading('r1', 450), reading('r2', 452), reading('r3', 1050, { phase: 'B' })]

  it('places them, finds their splices, assesses and rolls up', async () => {
    const r = await report('readings', csv(rows), { survey: 'Spring' })
    expect(() => importReport.parse(r)).not.toThrow()
    expect(r).toMatchObject({ rows: 3, read: 3, rejected: 0, already_held: 0, placed: 3, review: 0, new_splices: 2 })
    const list = await listSplices(scope)
    expect(list.items.map((s) => [s.circuit, s.phase, s.class, s.reading_count])).toEqual(
      expect.arrayContaining([['S1', 'A', 'sound', 2], ['S1', 'B', 'sound', 1]]))
    expect(list.counts.sound).toBe(2)
  })

  it('answers the same file with the same report and stores nothing', async () => {
    const before = [await count('reading'), await count('placement'), await count('assessment')]
    const again = await importText('readings', csv(rows), { survey: 'Spring' })
    expect(again.again).toBe(true)
    expect(again.report).toMatchObject({ rows: 3, placed: 3 })
    expect([await count('reading'), await count('placement'), await count('assessment')]).toEqual(before)
  })

  it('counts rows that it holds already, and refuses the same id with other values', async () => {
    const r = await report('readings', csv([...rows, reading('r4', 1350), reading('r1', 450, { side_a_uohm: 99 })]), { survey: 'Spring' })
    expect(r.read + r.rejected).toBe(r.rows)
    expect(r).toMatchObject({ rows: 5, rejected: 1, already_held: 3, placed: 1, new_splices: 1 })
    expect(r.issues.find((i) => i.severity === 'error')).toMatchObject({ row: 5, field: 'reading_id' })
  })

  it('refuses an id that the store holds with other values, and says what to do', async () => {
    const r = await report('readings', csv([reading('r2', 452, { side_b_uohm: 60 })]), { survey: 'Spring' })
    expect(r).toMatchObject({ rows: 1, read: 0, rejected: 1 })
    expect(r.issues[0]).toMatchObject({ code: 'duplicate-id', value: 'r2' })
    const rejected = []
    for await (const row of rejectedRows(scope, r.import_id)) rejected.push(row)
    expect(rejected.map(({ row, code }) => [row, code])).toEqual([[1, 'duplicate-id'], [1, 'rejected-but-urgent']])
    for (const { raw } of rejected) expect(raw).toContain('r2')
  })

  it('keeps the same id in another survey apart', async () => {
    const autumn = reading('r1', 450, { taken_at: '2026-09-01T10:00:00Z' })
    expect(await report('readings', csv([autumn]), { survey: 'Autumn' })).toMatchObject({ read: 1, already_held: 0, placed: 1, new_splices: 0 })
  })

  it('does everything in a dry run and keeps the report only', async () => {
    const before = [await count('reading'), await count('splice'), (await storeState(scope)).data_version]
    const r = await report('readings', csv([reading('d1', 2000), reading('d2', 2300, { side_a_uohm: -1 })]), { survey: 'Dry', dryRun: true })
    expect(r).toMatchObject({ rows: 2, read: 1, rejected: 1, placed: 1, new_splices: 1 })
    expect([await count('reading'), await count('splice'), (await storeState(scope)).data_version]).toEqual(before)
    expect((await listIssues(scope, r.import_id)).items).toHaveLength(1)
    expect(await getImport(scope, r.import_id)).toMatchObject({ state: 'done', dry_run: true })
  })

  it('sends what lies near nothing to review, and nothing is dropped', async () => {
    const r = await report('readings', csv([reading('far', 300, { lat: 47.5 }), reading('zero', 0, { lon: 0, lat: 0 })]), { survey: 'Astray' })
    expect(r).toMatchObject({ rows: 2, read: 2, placed: 0, review: 2 })
  })

  it('refuses a file that is none, by name, and leaves nothing of it', async () => {
    const result = await importFromStream(scope, source('nothing.csv', '\u0000\u0001\u0002\u0003picture'), { kind: 'readings', actor: 'tester' })
    expect(result).toMatchObject({ ok: false, error: { code: 'invalid' } })
    const [last] = (await listImports(scope)).items
    expect(last).toMatchObject({ file_name: 'nothing.csv', state: 'failed', report: null })
    expect(last?.failure).toMatch(/\.$/)
  })
})

describe('after building the same network again', () => {
  it('changes nothing', async () => {
    await buildNetwork()
    expect(await count('span')).toBe(30)
  })
})
