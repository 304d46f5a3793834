import { beforeAll, describe, expect, it } from 'vitest'
import { undoImport } from '@/lib/cases/undo-import'
import { getHealth } from '@/lib/store/health'
import { getImport } from '@/lib/store/imports'
import { sql } from '@/lib/store/sql/sql'
import { listSplices } from '@/lib/store/splices'
import { database } from '@/lib/store/transaction'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, linesFile, lineFeature, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const rows = async <T extends object>(table: string): Promise<T[]> => database().rows<T>(sql([`SELECT * FROM ${table} ORDER BY id`]))
const splices = async () => (await listSplices(scope)).items

describe('undoing an import of readings', () => {
  it('withdraws its readings and the splices that only they support, and keeps the raw rows', async () => {
    const r = await report('readings', csv([reading('a', 450), reading('b', 1050)]), { survey: 'One' })
    expect(await splices()).toHaveLength(2)
    expect(await undoImport(scope, r.import_id, 'tester')).toMatchObject({ ok: true, value: { readings_withdrawn: 2, splices_removed: 2, held: [] } })
    expect(await splices()).toHaveLength(0)
    const kept = await rows<{ raw_row: string; withdrawn: boolean }>('reading')
    expect(kept).toHaveLength(2)
    expect(kept.every((row) => row.withdrawn && row.raw_row !== '')).toBe(true)
    expect(await getImport(scope, r.import_id)).toMatchObject({ state: 'undone' })
    const circuit = await database().row<{ id: number }>(sql`SELECT id FROM circuit WHERE name = 'S1'`)
    expect(await getHealth(scope, circuit?.id ?? 0)).toMatchObject({ splice_count: 0, worst_splice: null, coverage: { covered_span_phases: 0 } })
  })

  it('cannot be done twice, and the file can be imported again', async () => {
    const r = await report('readings', csv([reading('a', 450), reading('b', 1050)]), { survey: 'One' })
    expect(r).toMatchObject({ placed: 2, already_held: 0, new_splices: 2 })
    expect(await undoImport(scope, r.import_id, 'tester')).toMatchObject({ ok: true })
    expect(await undoImport(scope, r.import_id, 'tester')).toMatchObject({ ok: false, error: { code: 'wrong-state' } })
  })

  it('leaves a splice that another import has read too', async () => {
    const first = await report('readings', csv([reading('c', 450)]), { survey: 'Two' })
    const second = await report('readings', csv([reading('c', 451)]), { survey: 'Three' })
    expect(second.new_splices).toBe(0)
    expect(await undoImport(scope, first.import_id, 'tester')).toMatchObject({ ok: true, value: { splices_removed: 0 } })
    expect((await splices()).map((s) => s.reading_count)).toEqual([1])
    await undoImport(scope, second.import_id, 'tester')
    expect(await splices()).toHaveLength(0)
  })

  it('never lowers urgent or critical silently: the class is held', async () => {
    await report('splices', csv([{ splice_id: 'K1', circuit: 'S1', line_distance_m: 1350, phase: 'A' }]))
    const bad = await report('readings', csv([reading('bad', 1350, { side_a_uohm: 90 })]), { survey: 'Bad' })
    expect(bad.urgent).toHaveLength(1)
    expect((await splices()).map((s) => [s.splice, s.class, s.held])).toEqual([['K1', 'critical', false]])
    const undone = await undoImport(scope, bad.import_id, 'tester')
    expect(undone).toMatchObject({ ok: true, value: { readings_withdrawn: 1, splices_removed: 0, held: [{ class: 'critical', measuredClass: 'unknown' }] } })
    expect((await splices()).map((s) => [s.class, s.measured_class, s.held])).toEqual([['critical', 'unknown', true]])
    expect((await listUrgent(scope)).map((u) => [u.reading_key, u.withdrawn?.file_name])).toEqual([['bad', 'readings.txt']])
  })
})

describe('undoing an import of the network', () => {
  it('is refused while splices of another import rest on it, and names them', async () => {
    const [lines] = (await rows<{ id: number; kind: string }>('import')).filter((i) => i.kind === 'lines')
    const refused = await undoImport(scope, lines?.id ?? 0, 'tester')
    expect(refused).toMatchObject({ ok: false, error: { code: 'in-use' } })
    expect(refused.ok ? '' : refused.error.message).toMatch(/changes of import \d+ \(structures\.txt\), 1 splices of import \d+/)
  })

  it('puts changed attributes back', async () => {
    const before = await rows<{ name: string; conductor_code: string }>('section')
    const { report: changed } = await importText('lines', linesFile([lineFeature('S1', 5_000, { conductor: 'Hawk', voltage_kv: 115 })]), {}, 'second.geojson')
    expect((await rows<{ conductor_code: string }>('section')).at(-1)?.conductor_code).toBe('Hawk')
    expect(await undoImport(scope, changed.import_id, 'tester')).toMatchObject({ ok: true })
    expect(await rows('section')).toEqual(before)
    expect((await database().row<{ kv: number }>(sql`SELECT voltage_kv AS kv FROM circuit WHERE name = 'S1'`))?.kv).toBe(230)
  })

  it('removes what it made where nothing rests on it', async () => {
    const { report: made } = await importText('lines', linesFile([lineFeature('N9', 9_000)]), {}, 'third.geojson')
    expect(await undoImport(scope, made.import_id, 'tester')).toMatchObject({ ok: true })
    expect((await rows<{ name: string }>('circuit')).map((c) => c.name)).toEqual(['L1', 'L2', 'S1'])
  })

  it('takes an earlier change back and keeps what a later import changed beside it', async () => {
    const { report: first } = await importText('lines', linesFile([lineFeature('S1', 5_000, { region: 'North' })]), {}, 'fourth.geojson')
    const { report: second } = await importText('lines', linesFile([lineFeature('S1', 5_000, { rating_a: 1000 })]), {}, 'fifth.geojson')
    expect(second.already_held).toBe(0)
    expect(await undoImport(scope, first.import_id, 'tester')).toMatchObject({ ok: true })
    expect((await rows<{ rating_a: number }>('section')).some((s) => s.rating_a === 1000)).toBe(true)
    expect((await rows<{ region: string | null }>('circuit')).some((c) => c.region === 'North')).toBe(false)
  })

  it('takes structures back only before later files have changed them', async () => {
    const moved = csv([{ circuit: 'S1', structure: 'S4', lon: -113.98816, lat: 47.044976, structure_type: 'dead-end' }])
    const { report: later } = await importText('structures', moved, {}, 'moved.csv')
    const [own] = (await rows<{ id: number; kind: string }>('import')).filter((i) => i.kind === 'structures')
    const refused = await undoImport(scope, own?.id ?? 0, 'tester')
    expect(refused.ok ? '' : refused.error.message).toContain('changes of import')
    const before = (await splices()).map((s) => [s.splice, s.line_distance_m])
    expect(await undoImport(scope, later.import_id, 'tester')).toMatchObject({ ok: true })
    expect((await rows<{ structure_type: string | null }>('structure')).every((s) => s.structure_type === null)).toBe(true)
    expect((await splices()).map((s) => [s.splice, Math.round(s.line_distance_m)])).toEqual(before.map(([name, m]) => [name, Math.round(Number(m))]))
  })
})
