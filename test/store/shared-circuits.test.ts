import { beforeAll, describe, expect, it } from 'vitest'
import { spokenText } from '@/components/intake/urgent-words'
import { placeDoubts } from '@/components/splice/place-doubt'
import { urgentReading } from '@/lib/contract/urgent'
import { listReview } from '@/lib/store/readings'
import { getSplice } from '@/lib/store/splice-detail'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { at, buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

/** Row n of a walk below circuits L1 and L2, so far north of the middle between them: no crew, no accuracy. */
const below = (id: string, n: number, northM: number, more: Record<string, string | number> = {}) => ({
  ...reading(id, 0, { ...at(150 + 200 * n, northM), taken_at: new Date(Date.UTC(2026, 5, 1, 10, 5 * n)).toISOString(), ...more }), gnss_accuracy_m: '',
})
const noticeOf = async (key: string) => {
  const notice = (await listUrgent(scope)).find((one) => one.reading_key === key)
  if (!notice) throw new Error(`${key} raised no notice`)
  return urgentReading.parse(notice)
}

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([{ splice_id: 'H-3', circuit: 'L1', line_distance_m: 750, phase: 'C' }]))
})

describe('a walk between two circuits, whose rows name one or leave it blank in turn', () => {
  it('leaves the blank rows to a person, with both circuits, and calls nobody to one alone', async () => {
    const rows = Array.from({ length: 12 }, (_, n) => below(`T-${n}`, n, 0, n % 2 === 0 ? { circuit: 'L1' } : n === 3 ? { side_a_uohm: 67, phase: '' } : {}))
    expect(await report('readings', csv(rows), { survey: 'In turn' })).toMatchObject({ placed: 6, review: 6 })
    const { items } = await listReview(scope)
    expect(items.map(({ reading: { reading_id: id } }) => id).sort()).toEqual(['T-1', 'T-11', 'T-3', 'T-5', 'T-7', 'T-9'])
    for (const item of items) {
      expect(item.cause).toBe('several-circuits')
      expect(item.candidates.map(({ circuit }) => circuit).sort()).toEqual(['L1', 'L2'])
      expect(item.reading.placement.reasons.map(({ text }) => text).join(' ')).not.toContain('crew')
    }
    const notice = await noticeOf('T-3')
    expect(notice.circuits.map(({ circuit }) => circuit).sort()).toEqual(['L1', 'L2'])
    expect(notice.splice_id).toBeNull()
  })
})

describe('a critical reading that its track alone puts on a circuit', () => {
  it('is told with the circuit that its own position leaves open, and that nobody gave its phase', async () => {
    // L1 hangs 6 m north of the middle.
    const rows = [8, 7, 9, 1, 8, 7, 9, 8].map((northM, n) => below(`U-${n}`, n, northM, { gnss_accuracy_m: 4, ...n === 3 && { side_a_uohm: 67, phase: '' } }))
    expect(await report('readings', csv(rows.map((row) => ({ ...row, gnss_accuracy_m: 4 }))), { survey: 'One circuit' })).toMatchObject({ placed: 8, review: 0 })
    const notice = await noticeOf('U-3')
    expect(notice).toMatchObject({ splice: 'H-3', other_circuits: 'L2', phase_not_confirmed: true })
    expect(notice.circuits).toMatchObject([{ circuit: 'L1' }])
    expect(spokenText(notice)).toMatch(/^L1 \(L1 line\), perhaps L2 by its own position, .*phase C.*, phase not confirmed$/)
    const splice = await getSplice(scope, notice.splice_id!)
    expect(placeDoubts(splice!).map(({ text }) => text)).toEqual([
      'Its only reading: Circuit L1 is taken from the readings before and after it: by its own position it could be on L2 as well.',
      'Its only reading: phase not confirmed. No phase was given, and C is that of the splice.',
    ])
  })
})
