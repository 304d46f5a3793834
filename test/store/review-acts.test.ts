import { beforeAll, describe, expect, it } from 'vitest'
import { beginReviewAct, previewReviewAct, undoReviewAct } from '@/lib/cases/review/review-acts'
import { runReviewAct, runReviewActUndo } from '@/lib/cases/review/run-review-act'
import { settleReview } from '@/lib/cases/settle-review'
import { reviewAct, reviewActPreview, type ReviewAct, type ReviewActBody } from '@/lib/contract/review-acts'
import { getReviewItem, listReview } from '@/lib/store/readings'
import { listReviewActs } from '@/lib/store/review-acts'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { at, buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

let importId = 0
const ids: Record<string, number> = {}
const quiet = () => Promise.resolve()
const state = async (key: string) => (await getReviewItem(scope, ids[key] ?? 0))?.reading.placement
const begun = async (body: ReviewActBody, actor = 'Reviewer'): Promise<ReviewAct> => {
  const act = await beginReviewAct(scope, body, actor)
  if (!act.ok) throw new Error(act.error.message)
  return reviewAct.parse(act.value)
}
const actOf = async (id: number) => (await listReviewActs(scope, id))[0]
const preview = async (...asked: Parameters<typeof previewReviewAct> extends [unknown, ...infer Rest] ? Rest : never) => {
  const would = await previewReviewAct(scope, ...asked)
  if (!would.ok) throw new Error(would.error.message)
  return reviewActPreview.parse(would.value)
}

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([
    { splice_id: 'S1-1', circuit: 'S1', line_distance_m: 450, phase: 'A' }, { splice_id: 'S1-2', circuit: 'S1', line_distance_m: 1050, phase: 'A' },
    { splice_id: 'S1-2b', circuit: 'S1', line_distance_m: 1055, phase: 'A' },
  ]))
  const off = (id: string, eastM: number, more: Record<string, string | number> = {}) => reading(id, eastM, { ...at(eastM, 5_022), gnss_accuracy_m: 8, taken_at: '', ...more })
  const read = await report('readings', csv([
    off('known', 450), off('fresh', 2100), off('fresh-again', 2105), off('two', 1052), off('bad', 1500, { side_a_uohm: 90 }),
    reading('between', 450, { ...at(450, 0), gnss_accuracy_m: 8, taken_at: '' }), reading('nowhere', 0, at(1000, 60_000)),
  ]), { survey: 'Many' })
  importId = read.import_id
  for (const { reading: { reading_id: key, id } } of (await listReview(scope)).items) ids[key] = id
})

describe('many waiting readings at once', () => {
  it('are told beforehand by circuit, with how many stay and why', async () => {
    expect(Object.keys(ids).sort()).toEqual(['bad', 'between', 'fresh', 'fresh-again', 'known', 'nowhere', 'two'])
    const would = await preview('accept-best', { import_id: importId })
    expect(would).toMatchObject({ chosen: 7, settles: 2, new_splices: 1, circuits: [{ circuit: 'S1', count: 2 }], imports: [{ import_id: importId, count: 7 }] })
    expect(Object.fromEntries(would.stays.map(({ why, count }) => [why, count]))).toEqual({
      urgent: 1, 'similar-circuits': 1, 'no-candidate': 1, 'several-splices': 1, 'beside-another': 1,
    })
  })

  it('are chosen by cause and by mark too', async () => {
    expect(await preview('set-aside', { cause: 'nothing-in-reach' })).toMatchObject({ chosen: 1, settles: 1, stays: [] })
    expect(await preview('set-aside', { reading_ids: [ids.bad ?? 0, ids.known ?? 0] })).toMatchObject({ chosen: 2, settles: 1, stays: [{ why: 'urgent', count: 1 }] })
    expect(await preview('set-aside', { import_id: importId + 1 })).toMatchObject({ chosen: 0, settles: 0 })
  })

  it('are not settled where the number is another by now', async () => {
    expect(await beginReviewAct(scope, { action: 'accept-best', choice: { import_id: importId }, expected: 3 }, 'Reviewer')).toMatchObject({ ok: false, error: { code: 'wrong-state' } })
    expect((await listReview(scope)).total).toBe(7)
  })

  it('go to the best candidate of each as one, with the name of the person, and come back as one', async () => {
    const before = (await listSplices(scope)).items.length
    const { id } = await begun({ action: 'accept-best', choice: { import_id: importId }, expected: 2 })
    expect(await state('known')).toMatchObject({ state: 'review' })
    await runReviewAct(scope, id, quiet)
    expect(await actOf(id)).toMatchObject({ settled: 2, left_waiting: 5, actor: 'Reviewer', undone_at: null })
    expect(await state('known')).toMatchObject({ state: 'placed', circuit: 'S1', splice: 'S1-1', method: 'person', decided_by: 'Reviewer' })
    expect(await state('fresh')).toMatchObject({ state: 'placed', circuit: 'S1' })
    for (const key of ['bad', 'between', 'nowhere', 'two', 'fresh-again']) expect(await state(key)).toMatchObject({ state: 'review' })
    expect((await listSplices(scope)).items.length).toBe(before + 1)
    const known = (await listSplices(scope)).items.find((one) => one.splice === 'S1-1')
    expect(known?.class).not.toBe('unknown')
    const trail = await database().rows<{ actor: string; action: string }>(sql`SELECT actor, action FROM audit_entry WHERE detail->>'review_act' = ${String(id)}`)
    expect(trail).toEqual([{ actor: 'Reviewer', action: 'placement.accepted' }, { actor: 'Reviewer', action: 'placement.accepted' }])

    await runReviewAct(scope, id, quiet)
    expect(await actOf(id)).toMatchObject({ settled: 2 })

    expect(await undoReviewAct(scope, id, 'Second')).toMatchObject({ ok: true })
    await runReviewActUndo(scope, id, 'Second', quiet)
    expect(await actOf(id)).toMatchObject({ restored: 2, undone_by: 'Second' })
    expect((await listReview(scope)).total).toBe(7)
    expect(await getReviewItem(scope, ids.known ?? 0)).toMatchObject({ cause: 'off-the-line', reading: { placement: { state: 'review', decided_by: null } } })
    expect((await listSplices(scope)).items.length).toBe(before)
    expect((await listSplices(scope)).items.find((one) => one.splice === 'S1-1')?.class).toBe('unknown')
    expect(await undoReviewAct(scope, id, 'Second')).toMatchObject({ ok: false, error: { code: 'wrong-state' } })
  })

  it('are set aside with a reason, but none that is urgent or critical; what was decided otherwise since stays so', async () => {
    const { id } = await begun({ action: 'set-aside', choice: {}, reason: 'Flown over the wrong line', expected: 6 })
    await runReviewAct(scope, id, quiet)
    expect(await state('bad')).toMatchObject({ state: 'review' })
    expect((await state('two'))?.reasons.map(({ text }) => text)).toEqual(['Set aside by a person: Flown over the wrong line.'])
    expect((await listReview(scope, { state: 'rejected' })).total).toBe(6)
    expect(await settleReview(scope, ids.fresh ?? 0, { action: 'accept', candidate: 0, new_splice: true }, 'Third')).toMatchObject({ ok: true })
    expect(await undoReviewAct(scope, id, 'Reviewer')).toMatchObject({ ok: true })
    await runReviewActUndo(scope, id, 'Reviewer', quiet)
    expect(await actOf(id)).toMatchObject({ settled: 6, restored: 5 })
    expect(await state('fresh')).toMatchObject({ state: 'placed', decided_by: 'Third' })
    expect((await listReview(scope)).total).toBe(6)
  })

  it('leave out what came to wait after it was said', async () => {
    const { id } = await begun({ action: 'set-aside', choice: { cause: 'nothing-in-reach' }, reason: 'Not ours', expected: 1 })
    await report('readings', csv([reading('later', 0, { ...at(1500, 60_000), taken_at: '2026-06-02T10:00:00Z' })]), { survey: 'Later' })
    await runReviewAct(scope, id, quiet)
    expect(await actOf(id)).toMatchObject({ settled: 1 })
    expect((await listReview(scope, { cause: 'nothing-in-reach' })).items.map((i) => i.reading.reading_id)).toEqual(['later'])
  })
})
