import { beforeAll, describe, expect, it } from 'vitest'
import { undoImport } from '@/lib/cases/undo-import'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
import { getHealth } from '@/lib/store/health'
import { listSplices } from '@/lib/store/splices'
import { getSplice } from '@/lib/store/splice-detail'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const s1 = async () => (await listCircuits(scope)).find((c) => c.name === 'S1')?.id ?? 0
const detail = async () => getCircuit(scope, await s1())

const phasing = [{ circuit: 'S1', structure_from: 'S1', structure_to: 'S6', position: 'top', phase: 'A' }, { circuit: 'S1', structure_from: 'S6', structure_to: 'S11', position: 'top', phase: 'B' }]

describe('a phasing file', () => {
  it('turns positions into phases from then on, by structure range', async () => {
    expect(await report('phasing', csv(phasing))).toMatchObject({ rows: 2, read: 2, already_held: 0 })
    const r = await report('readings', csv([reading('t1', 450, { phase: '', position: 'top' }), reading('t2', 2250, { phase: '', position: 'top' })]), { survey: 'Spring' })
    expect(r).toMatchObject({ placed: 2, new_splices: 2 })
    expect((await listSplices(scope, { sort: 'place' })).items.map((s) => [s.phase, s.position])).toEqual([['A', 'top'], ['B', 'top']])
    expect((await getHealth(scope, await s1()))?.coverage).toMatchObject({ span_count: 10, span_phase_count: 20, covered_span_phases: 2 })
  })

  it('is the same again, or replaces what stood there, and comes back by undo', async () => {
    expect(await report('phasing', `${csv(phasing)}\r\n`)).toMatchObject({ read: 2, already_held: 2 })
    const changed = await report('phasing', csv([{ ...phasing[0], phase: 'C' } as Record<string, string>]))
    expect((await detail())?.phasing.map((p) => p.phase)).toEqual(['C', 'B'])
    expect(await undoImport(scope, changed.import_id, 'tester')).toMatchObject({ ok: true })
    expect((await detail())?.phasing.map((p) => p.phase)).toEqual(['A', 'B'])
  })

  it('names structures that do not stand there', async () => {
    const r = await report('phasing', csv([
      { circuit: 'S1', structure_from: 'S1', structure_to: 'S99', position: 'top', phase: 'A' },
      { circuit: 'X', structure_from: '1', structure_to: '2', position: 'top', phase: 'A' },
    ]))
    expect(r).toMatchObject({ read: 0, rejected: 2 })
    expect(r.issues.map((i) => [i.code, i.field, i.value])).toEqual([['unknown-structure', 'structure_to', 'S99'], ['unknown-circuit', 'circuit', 'X']])
  })
})

describe('a crossings file', () => {
  it('lists what the circuit crosses, once', async () => {
    const rows = [{ circuit: 'S1', line_distance_m: 700, kind: 'river', name: 'Alder Creek' }, { circuit: 'S1', line_distance_m: 9_000, kind: 'road', name: '' }]
    const first = await report('crossings', csv(rows))
    expect(first).toMatchObject({ rows: 2, read: 1, rejected: 1 })
    expect(first.issues[0]).toMatchObject({ row: 2, code: 'beyond-the-line' })
    expect(await report('crossings', csv(rows.slice(0, 1)))).toMatchObject({ read: 1, already_held: 1 })
    expect((await detail())?.crossings).toMatchObject([{ line_distance_m: 700, kind: 'river', name: 'Alder Creek' }])
  })
})

describe('a patrol file', () => {
  const patrol = [{ survey: 'Patrol', circuit: 'S1', structure_from: '', structure_to: '', surveyed_on: '2026-05-01', method: 'visual' }]

  it('covers the whole circuit where it names no structures, and never a class', async () => {
    const before = (await getHealth(scope, await s1()))?.counts
    const r = await report('extents', csv(patrol))
    expect(r).toMatchObject({ rows: 1, read: 1 })
    expect(await getHealth(scope, await s1())).toMatchObject({ counts: before, coverage: { covered_span_phases: 20, share: 1 } })
    expect(await report('extents', `${csv(patrol)}\r\n`)).toMatchObject({ read: 1, already_held: 1 })
    expect(await undoImport(scope, r.import_id, 'tester')).toMatchObject({ ok: true })
    expect((await getHealth(scope, await s1()))?.coverage.covered_span_phases).toBe(2)
  })
})

describe('a splices file', () => {
  const row = (splice_id: string, more: Record<string, string | number>) => ({
    splice_id, circuit: 'S1', structure_back: 'S9', structure_ahead: 'S10', line_distance_m: '', phase: 'C', position: '', kind: 'jumper splice',
    barrel_od_mm: '', removed_on: '', successor_of: '', ...more,
  })
  const first = row('A-1', {
    structure_back: 'S2', structure_ahead: 'S3', line_distance_m: 450, phase: 'A', position: 'top', kind: 'full-tension splice', barrel_od_mm: 47.6,
  })
  const list = [
    first, row('A-2', { successor_of: 'A-3' }), row('A-3', { line_distance_m: 2500, removed_on: '2024-05-01' }),
    row('A-4', { structure_back: 'S2', structure_ahead: 'S3', line_distance_m: 2000, phase: 'A', kind: 'wedge' }),
  ]

  it('names a splice that a survey found, places the others, and refuses what contradicts itself', async () => {
    const r = await report('splices', csv(list))
    expect(r).toMatchObject({ rows: 4, read: 3, rejected: 1, new_splices: 2 })
    expect(r.issues.map((i) => [i.row, i.code])).toEqual(expect.arrayContaining([[1, 'found-splice-named'], [2, 'place-in-span-unknown'], [4, 'distance-contradicts-structures']]))
    const splices = (await listSplices(scope, { sort: 'place' })).items
    expect(splices.map((s) => s.splice)).toEqual(['A-1', expect.stringMatching(/^found /), 'A-2']) // A-3 was removed from the line
    const named = await getSplice(scope, splices[0]?.id ?? 0)
    expect(named).toMatchObject({ found_by_survey: false, barrel_od_mm: 47.6, reading_count: 1, class: 'sound' })
  })

  it('finds nothing new in the same rows, and brings up to date what a cell says', async () => {
    expect(await report('splices', `${csv(list.slice(0, 3))}\r\n`)).toMatchObject({ read: 3, already_held: 3, new_splices: 0 })
    const changed = await report('splices', csv([{ ...first, barrel_od_mm: 50 }]))
    expect(changed).toMatchObject({ read: 1, already_held: 0, new_splices: 0 })
    const id = (await listSplices(scope)).items.find((s) => s.splice === 'A-1')?.id ?? 0
    expect((await getSplice(scope, id))?.barrel_od_mm).toBe(50)
    await undoImport(scope, changed.import_id, 'tester')
    expect((await getSplice(scope, id))?.barrel_od_mm).toBe(47.6)
  })
})
