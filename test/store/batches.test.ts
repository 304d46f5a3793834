import { beforeAll, describe, expect, it } from 'vitest'
import { batchList } from '@/lib/contract/batches'
import { listBatches } from '@/lib/store/batches'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

/** Three splices a span on circuit S1, every third of a bad batch; those of spans 1 to 8 are measured. */
const ALONG = Array.from({ length: 30 }, (_, i) => ({ i, eastM: 60 + Math.floor(i / 3) * 300 + (i % 3) * 80, bad: i % 3 === 0 }))

describe('batches of splices', () => {
  it('stand out where more fail than by accident, with those of them that nobody measured', async () => {
    await importText('splices', csv(ALONG.map(({ i, eastM, bad }) => ({
      splice_id: `J${i}`, circuit: 'S1', line_distance_m: eastM, phase: 'A', kind: 'full-tension splice', batch: bad ? 'K-7' : i % 2 ? 'K-8' : '',
    }))))
    expect((await listBatches(scope)).map(({ batch, measured_count: n, stands_out: out }) => [batch, n, out])).toEqual([['K-7', 0, false], ['K-8', 0, false]])

    await report('readings', csv(ALONG.filter(({ i }) => i < 24).map(({ i, eastM, bad }) => reading(`r${i}`, eastM, { splice_id: `J${i}`, ...(bad && { side_a_uohm: 35 }) }))), { survey: 'Walk' })
    const [worst, other] = batchList.parse({ items: await listBatches(scope) }).items
    expect(worst).toMatchObject({ batch: 'K-7', splice_count: 10, measured_count: 8, failing_count: 8, others_share: 0, stands_out: true })
    // 8 of 8 fail and none of the 16 others: one way in C(24, 8) = 735,471.
    expect((worst?.by_accident ?? NaN) * 735_471).toBeCloseTo(1, 6)
    expect(worst?.splices.map((splice) => splice.class)).toEqual([...Array.from({ length: 8 }, () => 'degraded'), 'unknown', 'unknown'])
    expect(worst?.splices.slice(8).map((splice) => splice.splice)).toEqual(['J24', 'J27'])
    expect(other).toMatchObject({ batch: 'K-8', failing_count: 0, stands_out: false, by_accident: 1, splices: [] })
  })
})
