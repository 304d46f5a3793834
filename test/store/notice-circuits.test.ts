import { beforeAll, describe, expect, it } from 'vitest'
import { settleReview, takeBackReview } from '@/lib/cases/settle-review'
import { undoImport } from '@/lib/cases/undo-import'
import { listReview } from '@/lib/store/readings'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { at, buildNetwork, csv, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const critical = (id: string, more: Record<string, string | number>) => reading(id, 0, { side_a_uohm: 67, lon: '', lat: '', ...more })
const noticeOf = async (key: string) => (await listUrgent(scope)).find((one) => one.reading_key === key)!
const circuitsOf = async (key: string) => (await noticeOf(key)).circuits.map(({ circuit }) => circuit)

describe('the circuits of a notice', () => {
  it('stay those it was raised with, whatever is taken back of its reading', async () => {
    const raised = await report('readings', csv([critical('named', { circuit: 'L1' }), critical('between', { ...at(450, 0), gnss_accuracy_m: 8 })]))
    expect(raised).toMatchObject({ review: 2, urgent: [{}, {}] })
    const { reading_id: id } = await noticeOf('named')
    expect(await circuitsOf('named')).toEqual(['L1'])
    expect((await settleReview(scope, id!, { action: 'reject', reason: 'tried out' }, 'tester')).ok).toBe(true)
    expect(await circuitsOf('named')).toEqual(['L1'])
    expect((await takeBackReview(scope, id!, 'tester')).ok).toBe(true)
    expect(await circuitsOf('named')).toEqual(['L1'])
    expect((await settleReview(scope, id!, { action: 'drag', ...at(450, 5_000), phase: 'B' }, 'tester')).ok).toBe(true)
    expect(await circuitsOf('named')).toEqual(['S1'])
    expect((await takeBackReview(scope, id!, 'tester')).ok).toBe(true)
    expect(await circuitsOf('named')).toEqual(['L1'])
    expect((await undoImport(scope, raised.import_id, 'tester')).ok).toBe(true)
    expect(await circuitsOf('named')).toEqual(['L1'])
    expect((await circuitsOf('between')).sort()).toEqual(['L1', 'L2'])
  })

  it('stand until somebody says why a critical reading counts for nothing', async () => {
    await report('readings', csv([critical('unexplained', { circuit: 'L1', side_b_uohm: 20 }), reading('mild', 0, { lon: '', lat: '', circuit: 'L1' })]), { survey: 'Reasons' })
    const { reading_id: id } = await noticeOf('unexplained')
    for (const reason of [undefined, ' ']) {
      expect(await settleReview(scope, id!, { action: 'reject', reason }, 'tester')).toMatchObject({
        ok: false, error: { code: 'invalid', message: 'This reading is critical: it is not set aside without a reason.' },
      })
    }
    const mild = (await listReview(scope)).items.find((one) => one.reading.reading_id === 'mild')!.reading.id
    expect((await settleReview(scope, mild, { action: 'reject' }, 'tester')).ok).toBe(true)
    expect((await settleReview(scope, id!, { action: 'reject', reason: 'lead was off' }, 'tester')).ok).toBe(true)
  })

  it('of a reading that is placed again where it stood are that place', async () => {
    await report('readings', csv([critical('placed', at(900, 5_000))]))
    const { reading_id: id } = await noticeOf('placed')
    expect((await settleReview(scope, id!, { action: 'drag', ...at(900, 6), phase: 'A' }, 'tester')).ok).toBe(true)
    expect(await circuitsOf('placed')).toEqual(['L1'])
    expect((await takeBackReview(scope, id!, 'tester')).ok).toBe(true)
    expect(await circuitsOf('placed')).toEqual(['S1'])
  })

  it('are found again where their lines were taken back and imported anew', async () => {
    const lines = (note: string) => linesFile([lineFeature('H1', 9_000, { line_name: note })])
    const first = await report('lines', lines('first'))
    await report('readings', csv([critical('elsewhere', { circuit: 'h1' })]))
    expect(await circuitsOf('elsewhere')).toEqual(['H1'])
    expect((await undoImport(scope, first.import_id, 'tester')).ok).toBe(true)
    expect(await circuitsOf('elsewhere')).toEqual([])
    await report('lines', lines('again'))
    expect((await noticeOf('elsewhere')).circuits).toMatchObject([{ circuit: 'H1', line_name: 'again' }])
  })
})
