import { beforeAll, describe, expect, it } from 'vitest'
import { acknowledgeUrgent, takeBackTold } from '@/lib/cases/acknowledge-urgent'
import { settleReview, takeBackReview } from '@/lib/cases/settle-review'
import { undoImport } from '@/lib/cases/undo-import'
import { reviewItem } from '@/lib/contract/contract'
import type { WaitingRow } from '@/lib/contract/waiting-row'
import { reviewCause, type PlacementReasonCode } from '@/lib/geo'
import { getReviewItem, listReview } from '@/lib/store/readings'
import { listSplices } from '@/lib/store/splices'
import { storeState } from '@/lib/store/state'
import { listUrgent } from '@/lib/store/urgent'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { at, buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

/** Between two circuits 12 m apart nobody can say which one it was. */
const between = (id: string, eastM: number, more: Record<string, string | number> = {}) =>
  reading(id, eastM, { ...at(eastM, 0), gnss_accuracy_m: 8, taken_at: '', ...more })

let waiting: WaitingRow[] = []
const ids: Record<string, number> = {}
const reviewed = async () => (await listReview(scope)).items

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([
    { splice_id: 'L1-1', circuit: 'L1', line_distance_m: 450, phase: 'A' }, { splice_id: 'L1-2', circuit: 'L1', line_distance_m: 1050, phase: 'A' },
    { splice_id: 'L2-1', circuit: 'L2', line_distance_m: 450, phase: 'A' },
  ]))
  const r = await report('readings', csv([
    between('mild', 450), between('bad', 1050, { side_a_uohm: 90 }), between('open', 1950), between('nowhere', 0, at(1000, 60_000)),
  ]), { survey: 'Doubtful' })
  expect(r).toMatchObject({ placed: 0, review: 4 })
  waiting = r.waiting ?? []
  for (const item of await reviewed()) ids[item.reading.reading_id] = item.reading.id
})

describe('the report of the import', () => {
  it('names each row that waits, with the reason that governs and where it may belong', async () => {
    expect(waiting.map(({ row, line }) => [row, line])).toEqual([[1, 2], [2, 3], [3, 4], [4, 5]])
    const [mild, , , nowhere] = waiting
    expect(nowhere).toMatchObject({ reason: 'No line lies within 30 m of the position.', candidates: [] })
    expect(mild?.candidates.map(({ circuit }) => circuit).sort()).toEqual(['L1', 'L2'])
    expect(mild?.candidates[0]?.position_text).toMatch(/^STR 2-3 \+ 1[45]\d m, phase A$/)
    const item = await getReviewItem(scope, ids.mild ?? 0)
    expect(item?.reading.placement.reasons.map(({ text }) => text)).toContain(mild?.reason)
  })
})

describe('the review queue', () => {
  it('lists urgent and critical first, with its candidates', async () => {
    const items = await reviewed()
    expect(items.map((i) => [i.reading.reading_id, i.urgent])).toEqual([['bad', true], ['mild', false], ['open', false], ['nowhere', false]])
    expect(items[0]?.candidates.map((c) => c.circuit).sort()).toEqual(['L1', 'L2'])
    expect(() => items.map((i) => reviewItem.parse(i))).not.toThrow()
  })

  it('says the one cause each waits for as the pure rules do, counts the causes and lists one of them', async () => {
    const all = await listReview(scope)
    expect(all.items.map((i) => i.cause)).toEqual(['several-circuits', 'several-circuits', 'several-circuits', 'nothing-in-reach'])
    for (const { cause, candidates, reading: { placement } } of all.items) {
      const reasons = placement.reasons.map((r) => ({ code: r.code as PlacementReasonCode }))
      expect(cause).toBe(reviewCause(reasons, candidates.map((c) => ({ circuitId: c.circuit_id, probability: c.probability }))))
    }
    expect(all.causes).toEqual([{ cause: 'several-circuits', count: 3, urgent: 1 }, { cause: 'nothing-in-reach', count: 1, urgent: 0 }])
    const one = await listReview(scope, { cause: 'nothing-in-reach' })
    expect(one).toMatchObject({ total: 1, items: [{ reading: { reading_id: 'nowhere' } }], causes: all.causes })
  })

  it('pages by cursor', async () => {
    const first = await listReview(scope, { limit: 3 })
    const second = await listReview(scope, { limit: 3, cursor: first.next_cursor ?? '' })
    expect([...first.items, ...second.items].map((i) => i.reading.reading_id)).toEqual(['bad', 'mild', 'open', 'nowhere'])
    expect(first.total).toBe(4)
  })
})

describe('a reading whose own numbers are urgent', () => {
  it('is before operations at once, unplaced, with the circuits it may be on', async () => {
    const [notice] = await listUrgent(scope)
    expect(notice).toMatchObject({ reading_key: 'bad', class: 'critical', placement_state: 'review', splice_id: null, acknowledged_at: null })
    expect(notice?.circuits.map((c) => c.circuit).sort()).toEqual(['L1', 'L2'])
    expect((await storeState(scope)).urgent_count).toBe(1)
  })

  it('takes a slip back within a minute, with whom was told and when, and both stand in the log', async () => {
    const which = { readingId: ids.bad ?? 0 }
    const call = { told_to: 'Desk 2', told_at: new Date(Date.now() - 600_000).toISOString() }
    expect(await acknowledgeUrgent(scope, which, 'operator', { told_at: new Date(Date.now() + 3_600_000).toISOString() })).toMatchObject({ ok: false, error: { code: 'invalid' } })
    expect(await acknowledgeUrgent(scope, which, 'operator', call)).toMatchObject({ ok: true, value: { acknowledged_by: 'operator', ...call } })
    expect(await getReviewItem(scope, which.readingId)).toMatchObject({ notice: call })
    expect(await takeBackTold(scope, which, 'operator')).toMatchObject({ ok: true, value: { acknowledged_at: null, told_to: null, told_at: null } })
    expect(await takeBackTold(scope, which, 'operator')).toMatchObject({ ok: false, error: { code: 'nothing-to-take-back' } })
    expect((await storeState(scope)).urgent_count).toBe(1)
    const log = await database().rows(sql`SELECT action, detail FROM audit_entry WHERE subject_kind = 'reading' AND subject_id = ${which.readingId} ORDER BY id`)
    expect(log).toEqual([{ action: 'urgent.acknowledged', detail: call }, { action: 'urgent.taken-back', detail: {} }])
  })

  it('leaves what was noted longer ago', async () => {
    const which = { readingId: ids.bad ?? 0 }
    await database().run(sql`UPDATE urgent_notice SET acknowledged_at = now() - interval '61 seconds', acknowledged_by = 'operator' WHERE reading_id = ${which.readingId}`)
    expect(await takeBackTold(scope, which, 'operator')).toMatchObject({ ok: false, error: { code: 'nothing-to-take-back' } })
    await database().run(sql`UPDATE urgent_notice SET acknowledged_at = NULL, acknowledged_by = NULL WHERE reading_id = ${which.readingId}`)
  })

  it('is acknowledged once, by a name', async () => {
    expect(await acknowledgeUrgent(scope, { readingId: ids.bad ?? 0 }, 'control room')).toMatchObject({ ok: true, value: { acknowledged_by: 'control room' } })
    expect(await acknowledgeUrgent(scope, { readingId: ids.bad ?? 0 }, 'somebody else')).toMatchObject({ ok: true, value: { acknowledged_by: 'control room' } })
    expect(await acknowledgeUrgent(scope, { readingId: ids.mild ?? 0 }, 'control room')).toMatchObject({ ok: false, error: { code: 'not-found' } })
    expect(await listUrgent(scope)).toHaveLength(0)
  })
})

describe('a person settling a reading', () => {
  const indexOf = async (id: number, circuit: string) => (await getReviewItem(scope, id))?.candidates.findIndex((c) => c.circuit === circuit) ?? -1

  it('accepts a candidate: the splice there is assessed anew', async () => {
    const id = ids.bad ?? 0
    const settled = await settleReview(scope, id, { action: 'accept', candidate: await indexOf(id, 'L1') }, 'operator')
    expect(settled).toMatchObject({ ok: true, value: { reading: { placement: { state: 'placed', splice: 'L1-2', method: 'person', decided_by: 'operator' } } } })
    const splice = (await listSplices(scope)).items.find((s) => s.splice === 'L1-2')
    expect(splice).toMatchObject({ class: 'critical', held: false, reading_count: 1 })
    expect((await listUrgent(scope, { readingId: id }))[0]?.circuits.map((c) => c.circuit)).toEqual(['L1'])
    expect(await database().row(sql`SELECT action, actor FROM audit_entry WHERE subject_kind = 'reading' AND subject_id = ${id} ORDER BY audit_entry.id DESC`))
      .toEqual({ action: 'placement.accepted', actor: 'operator' })
  })

  it('takes the decision back: the reading waits again, and critical is held', async () => {
    const back = await takeBackReview(scope, ids.bad ?? 0, 'operator')
    expect(back).toMatchObject({ ok: true, value: { reading: { placement: { state: 'review', splice_id: null } } } })
    const splice = (await listSplices(scope)).items.find((s) => s.splice === 'L1-2')
    expect(splice).toMatchObject({ class: 'critical', measured_class: 'unknown', held: true, reading_count: 0 })
    expect(await takeBackReview(scope, ids.bad ?? 0, 'operator')).toMatchObject({ ok: false, error: { code: 'nothing-to-take-back' } })
  })

  it('makes a new splice, and taking that back removes it', async () => {
    const id = ids.mild ?? 0
    const count = (await listSplices(scope)).total
    const settled = await settleReview(scope, id, { action: 'accept', candidate: await indexOf(id, 'L2'), new_splice: true, phase: 'C' }, 'operator')
    expect(settled.ok && settled.value.reading.placement.splice).toMatch(/^found \d+$/)
    const made = (await listSplices(scope, { filter: { phases: ['C'] } })).items
    expect(made).toMatchObject([{ circuit: 'L2', phase: 'C', class: 'sound', found_by_survey: true }])
    await takeBackReview(scope, id, 'operator')
    expect((await listSplices(scope)).total).toBe(count)
  })

  it('chooses another splice of the circuit, and refuses one of another circuit or phase', async () => {
    const id = ids.mild ?? 0
    const all = (await listSplices(scope)).items
    const idOf = (name: string) => all.find((s) => s.splice === name)?.id ?? 0
    const candidate = await indexOf(id, 'L1')
    expect(await settleReview(scope, id, { action: 'accept', candidate, splice_id: idOf('L2-1') }, 'operator')).toMatchObject({ ok: false, error: { code: 'invalid' } })
    expect(await settleReview(scope, id, { action: 'accept', candidate, splice_id: idOf('L1-1'), phase: 'B' }, 'operator')).toMatchObject({ ok: false })
    expect(await settleReview(scope, id, { action: 'accept', candidate: 99 }, 'operator')).toMatchObject({ ok: false, error: { code: 'no-such-candidate' } })
    expect(await settleReview(scope, id, { action: 'accept', candidate, splice_id: idOf('L1-1') }, 'operator')).toMatchObject({ ok: true })
    expect((await listSplices(scope)).items.find((s) => s.splice === 'L1-1')).toMatchObject({ class: 'sound', reading_count: 1 })
  })

  it('drags the mark to its place: it snaps to the line of the circuit that is named', async () => {
    const id = ids.open ?? 0
    const { id: circuitId = 0 } = (await getReviewItem(scope, id))?.candidates.map((c) => ({ id: c.circuit_id, name: c.circuit })).find((c) => c.name === 'L2') ?? {}
    const far = await settleReview(scope, id, { action: 'drag', ...at(1950, 3_000), circuit_id: circuitId }, 'operator')
    expect(far).toMatchObject({ ok: false, error: { code: 'nothing-in-reach' } })
    const settled = await settleReview(scope, id, { action: 'drag', ...at(2000, -4), circuit_id: circuitId }, 'operator')
    expect(settled.ok && settled.value.reading.placement).toMatchObject({ state: 'placed', circuit: 'L2', method: 'person' })
    expect(settled.ok && Math.abs((settled.value.reading.placement.line_distance_m ?? 0) - 2000)).toBeLessThan(10)
    expect((await listSplices(scope)).items.filter((s) => s.circuit === 'L2')).toHaveLength(2)
  })

  it('rejects a reading with a reason and lists it apart', async () => {
    const id = ids.nowhere ?? 0
    expect(await settleReview(scope, id, { action: 'reject', reason: 'Another utility' }, 'operator')).toMatchObject({ ok: true })
    const rejected = await listReview(scope, { state: 'rejected' })
    expect(rejected.items.map((i) => i.reading.reading_id)).toEqual(['nowhere'])
    expect(await takeBackReview(scope, id, 'operator')).toMatchObject({ ok: true, value: { reading: { placement: { state: 'review' } } } })
  })

  it('brings a placement back whose splice was gone meanwhile', async () => {
    const id = ids.open ?? 0
    await settleReview(scope, id, { action: 'reject' }, 'operator')
    expect((await listSplices(scope)).items.filter((s) => s.circuit === 'L2')).toHaveLength(1)
    expect(await takeBackReview(scope, id, 'operator')).toMatchObject({ ok: true, value: { reading: { placement: { state: 'placed', circuit: 'L2' } } } })
    expect((await listSplices(scope)).items.filter((s) => s.circuit === 'L2')).toHaveLength(2)
  })

  it('undoes the import with all that people decided on it', async () => {
    const importId = (await getReviewItem(scope, ids.open ?? 0))?.reading.import_id ?? 0
    expect(await undoImport(scope, importId, 'operator')).toMatchObject({ ok: true, value: { readings_withdrawn: 4, splices_removed: 1 } })
    expect(await reviewed()).toHaveLength(0)
    expect((await listSplices(scope)).items.map((s) => s.reading_count)).toEqual([0, 0, 0])
    expect(await settleReview(scope, ids.open ?? 0, { action: 'reject' }, 'operator')).toMatchObject({ ok: false, error: { code: 'not-found' } })
  })
})
