import { beforeAll, describe, expect, it } from 'vitest'
import { undoImport } from '@/lib/cases/undo-import'
import { circuitDetail } from '@/lib/contract/api'
import { spliceDetail } from '@/lib/contract/contract'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([{ splice_id: 'one', circuit: 'S1', line_distance_m: 450, phase: 'A' }]))
})

const row = (hour: number, current_a: number | string, more: Record<string, string> = {}) =>
  ({ circuit: 'S1', section: '', taken_at: `2026-06-01T${String(hour).padStart(2, '0')}:00:00Z`, current_a, quality: 'measured', ...more })

async function lastLoad() {
  const { id } = (await listCircuits(scope)).find(({ name }) => name === 'S1') ?? { id: 0 }
  return circuitDetail.parse(await getCircuit(scope, id)).sections[0]?.last_load ?? null
}

describe('loads of a section', () => {
  it('come in by file: the latest that nobody suspects is the last known load', async () => {
    expect(await lastLoad()).toBeNull()
    const r = await report('loads', csv([row(10, 512), row(11, 498.5, { quality: 'estimated' }), row(12, 9, { quality: 'bad' })]))
    expect(r).toMatchObject({ kind: 'loads', rows: 3, read: 3, rejected: 0 })
    expect(await lastLoad()).toEqual({ current_a: 498.5, taken_at: '2026-06-01T11:00:00.000Z', quality: 'estimated' })
    const splice = (await listSplices(scope)).items.find((s) => s.splice === 'one')
    expect(spliceDetail.parse(await getSplice(scope, splice?.id ?? 0)).last_load?.current_a).toBe(498.5)
  })

  it('are held once, and another value for the same moment is refused with a remedy', async () => {
    const r = await report('loads', csv([row(10, 512), row(11, 700), row(13, 530)]), {}, 'again.csv')
    expect(r).toMatchObject({ rows: 3, read: 2, rejected: 1, already_held: 1 })
    expect(r.issues[0]).toMatchObject({ row: 2, field: 'current_a', code: 'other-load-held', remedy: 'Undo the earlier import first where it was wrong.' })
    expect(await lastLoad()).toMatchObject({ current_a: 530, quality: 'measured' })
  })

  it('of circuits and sections that are not known, or without a number, are rejected by name', async () => {
    const r = await report('loads', csv([row(1, 5, { circuit: 'Q9' }), row(2, 5, { section: 'tap 4' }), row(3, 'none'), row(4, -1)]), {}, 'wrong.csv')
    expect(r).toMatchObject({ rejected: 4 })
    const found = r.issues.map(({ row: at, field }) => [at, field] as const).sort(([a], [b]) => a - b)
    expect(found).toEqual([[1, 'circuit'], [2, 'section'], [3, 'current_a'], [4, 'current_a']])
  })

  it('go with the undo of their import, and the ones before count again', async () => {
    const r = await report('loads', csv([row(14, 610), row(15, 620)]), {}, 'more.csv')
    expect(await lastLoad()).toMatchObject({ current_a: 620 })
    expect((await undoImport(scope, r.import_id, 'tester')).ok).toBe(true)
    expect(await lastLoad()).toMatchObject({ current_a: 530 })
  })

  it('may lie ahead where they are planned, and nowhere else', async () => {
    const ahead = (years: number) => ({ taken_at: new Date(Date.now() + years * 365.25 * 86_400_000).toISOString() })
    const r = await report('loads', csv([
      row(1, 640, { ...ahead(0.2), quality: 'expected-peak' }), row(1, 650, ahead(0.3)), row(1, 660, { ...ahead(80), quality: 'post-contingency' }),
    ]), {}, 'ahead.csv')
    expect(r).toMatchObject({ rows: 3, read: 1, rejected: 2 })
    expect(r.issues.map(({ row: at, field, code }) => [at, field, code])).toEqual([[2, 'taken_at', 'time-in-future'], [3, 'taken_at', 'time-in-future']])
    expect(r.issues[0]?.remedy).toMatch(/^Correct the date in taken_at: its year, the order of day and month, or the zone \([\w/]+\)\. Where the current is planned, write expected-peak or post-contingency in quality\.$/)
    expect((await undoImport(scope, r.import_id, 'tester')).ok).toBe(true)
  })

  it('that the planner expects bear on the class, which the dry run says first; the last known load stays what was carried', async () => {
    const splice = async () => spliceDetail.parse(await getSplice(scope, (await listSplices(scope)).items.find((s) => s.splice === 'one')?.id ?? 0))
    await report('readings', csv([reading('k-1.77', 450, { splice_id: 'one', side_a_uohm: 38.5 })]), { survey: 'Walk' })
    const before = await splice()
    const limitA = before.outlook?.limit?.line_a ?? NaN
    expect(before).toMatchObject({ class: 'degraded', last_load: { current_a: 530 } })
    expect(limitA).toBeLessThan(900)
    const planned = csv([
      row(9, Math.ceil(limitA) + 1, { quality: 'forecast peak' }), row(9, Math.floor(limitA) - 1, { quality: 'N-1' }), row(8, 5, { quality: 'expected-peak' }),
    ])
    expect((await report('loads', planned, { dryRun: true }, 'planned.csv')).class_changes).toMatchObject({ total: 1, changes: [{ from: 'degraded', to: 'urgent', count: 1 }] })
    expect((await splice()).class).toBe('degraded')
    const told = await report('loads', planned, {}, 'planned.csv')
    expect(told.issues).toEqual([])
    expect(told).toMatchObject({ read: 3, rejected: 0, class_changes: { total: 1 } })
    const after = await splice()
    expect(after).toMatchObject({ class: 'urgent', last_load: { current_a: 530 } })
    expect(after.outlook?.limit?.flows.map(({ flow, over_a: overA }) => [flow, overA > 0])).toEqual([['expected_peak', true], ['post_contingency', false]])
    expect((await undoImport(scope, told.import_id, 'tester')).ok).toBe(true)
    expect(await splice()).toMatchObject({ class: 'urgent', measured_class: 'degraded', held: true })
    expect((await splice()).outlook?.limit?.flows).toEqual([])
  })

  it('are kept in range by the database itself', async () => {
    const insert = (currentA: number, quality: string | null, flow = 'carried') => database().run(sql`
      INSERT INTO section_load (section_id, taken_at, current_a, flow, quality, import_id)
      SELECT id, now(), ${currentA}::float8, ${flow}::text, ${quality}::text, import_id FROM section WHERE import_id IS NOT NULL LIMIT 1`)
    await expect(insert(-1, null)).rejects.toThrow('section_load_current_range')
    await expect(insert(5, 'splendid')).rejects.toThrow('section_load_quality')
    await expect(insert(5, null, 'wished for')).rejects.toThrow('section_load_flow')
    await expect(insert(5, 'measured', 'expected-peak')).rejects.toThrow('section_load_quality_of_carried')
  })
})
