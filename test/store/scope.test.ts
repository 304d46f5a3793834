import { beforeAll, describe, expect, it } from 'vitest'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'
import { changePolicy } from '@/lib/cases/change-policy'
import { changeSettings } from '@/lib/cases/change-settings'
import { importFromStream } from '@/lib/cases/import-from-stream'
import { settleReview } from '@/lib/cases/settle-review'
import { undoImport } from '@/lib/cases/undo-import'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
import { coverageOfCircuit } from '@/lib/store/coverage'
import { getHealth, listHealth } from '@/lib/store/health'
import { getImport, listImports } from '@/lib/store/imports'
import { loadKnownSplices, loadNetwork } from '@/lib/store/network'
import { getReading, listReview, readingsOfImport } from '@/lib/store/readings'
import { narrowed } from '@/lib/store/scope'
import { searchStore } from '@/lib/store/search'
import { getSplice } from '@/lib/store/splice-detail'
import { countSplices, listSplices } from '@/lib/store/splices'
import { storeState } from '@/lib/store/state'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { at, buildNetwork, csv, linesFile, reading, report, scope, source } from './utility'

useDatabase()

let importId = 0
let circuits: Record<string, number> = {}

beforeAll(async () => {
  await buildNetwork()
  importId = (await report('readings', csv([
    reading('s', 450), reading('declared', 450, { ...at(450, 6), circuit: 'L1', side_a_uohm: 90, gnss_accuracy_m: 1 }),
    reading('between', 1050, { ...at(1050, 0), taken_at: '', gnss_accuracy_m: 8 }), reading('far', 0, at(0, 80_000)),
  ]), { survey: 'Spring' })).import_id
  circuits = Object.fromEntries((await listCircuits(scope)).map((c) => [c.name, c.id]))
})

const only = (name: string) => narrowed(scope, [circuits[name] ?? 0])

describe('a scope of one circuit', () => {
  it('sees that circuit and nothing of the others', async () => {
    const own = only('S1')
    expect((await listCircuits(own)).map((c) => c.name)).toEqual(['S1'])
    expect(await getCircuit(own, circuits.L1 ?? 0)).toBeUndefined()
    expect((await listHealth(own)).map((h) => h.circuit)).toEqual(['S1'])
    expect(await getHealth(own, circuits.L1 ?? 0)).toBeUndefined()
    expect(await coverageOfCircuit(own, circuits.L1 ?? 0)).toEqual([])
    expect((await listSplices(own)).items.map((s) => s.circuit)).toEqual(['S1'])
    expect((await listSplices(own)).hidden).toEqual({ urgent: 0, critical: 0 })
    expect(await countSplices(own)).toMatchObject({ sound: 1, critical: 0 })
    expect((await searchStore(own, 'L1')).items.filter((i) => i.kind === 'circuit')).toEqual([])
    const network = await loadNetwork(own)
    expect([...new Set(network.sections.map((s) => s.circuit))]).toEqual(['S1'])
    expect(new Set(network.spans.map((s) => s.circuitId)).size).toBe(1)
    expect((await loadKnownSplices(own)).length).toBe(1)
  })

  it('sees readings placed on it and those that may be on it, but none that lies elsewhere or nowhere', async () => {
    const all = await readingsOfImport(scope, importId)
    const idOf = (key: string) => all.items.find((r) => r.reading_id === key)?.id ?? 0
    expect(all.items).toHaveLength(4)
    expect((await readingsOfImport(only('S1'), importId)).items.map((r) => r.reading_id)).toEqual(['s'])
    expect((await readingsOfImport(only('L2'), importId)).items.map((r) => r.reading_id)).toEqual(['between'])
    expect((await listReview(scope)).total).toBe(2)
    expect((await listReview(only('L2'))).items.map((i) => i.reading.reading_id)).toEqual(['between'])
    expect(await getReading(only('S1'), idOf('declared'))).toBeUndefined()
    expect(await getReading(only('L1'), idOf('declared'))).toMatchObject({ reading_id: 'declared' })
    expect((await listUrgent(scope)).map((u) => u.reading_key)).toEqual(['declared'])
    expect(await listUrgent(only('S1'))).toEqual([])
    expect(await storeState(only('L1'))).toMatchObject({ urgent_count: 1, review_count: 1 })
    expect(await storeState(only('S1'))).toMatchObject({ urgent_count: 0, review_count: 0 })
  })

  it('cannot open a splice of another circuit', async () => {
    const critical = (await listSplices(scope, { filter: { classes: ['critical'] } })).items[0]
    expect(await getSplice(only('L1'), critical?.id ?? 0)).toMatchObject({ class: 'critical' })
    expect(await getSplice(only('S1'), critical?.id ?? 0)).toBeUndefined()
  })

  it('cannot settle or acknowledge what it does not see', async () => {
    const [item] = (await listReview(only('L2'))).items
    const id = item?.reading.id ?? 0
    expect(await settleReview(only('S1'), id, { action: 'reject' }, 'operator')).toMatchObject({ ok: false, error: { code: 'not-found' } })
    const [urgent] = await listUrgent(scope)
    expect(await acknowledgeUrgent(only('S1'), { readingId: urgent?.reading_id ?? 0 }, 'operator')).toMatchObject({ ok: false })
    expect((await listUrgent(scope))).toHaveLength(1)
  })

  it('cannot import, undo, or change policy and settings, and sees no imports', async () => {
    const own = only('S1')
    expect(await getImport(own, importId)).toBeUndefined()
    expect((await listImports(own)).items).toEqual([])
    expect(await importFromStream(own, source('x.geojson', linesFile()), { kind: 'lines', actor: 'operator' })).toMatchObject({ ok: false, error: { code: 'not-allowed' } })
    expect(await undoImport(own, importId, 'operator')).toMatchObject({ ok: false, error: { code: 'not-allowed' } })
    expect(await changePolicy(own, { values: {}, procedureNo: null, note: null, setBy: null, actor: 'operator' })).toMatchObject({ ok: false, error: { code: 'not-allowed' } })
    expect(await changeSettings(own, { unit_system: 'us' }, 'operator')).toMatchObject({ ok: false, error: { code: 'not-allowed' } })
  })

  it('has a key of its own, so that no cache mixes it with another', () => {
    expect(new Set([scope.key, only('S1').key, only('L1').key]).size).toBe(3)
    expect(narrowed(only('S1'), [circuits.L1 ?? 0]).circuitIds).toEqual([])
  })
})
