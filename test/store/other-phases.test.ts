import { beforeAll, describe, expect, it } from 'vitest'
import { undoImport } from '@/lib/cases/undo-import'
import { spliceDetail } from '@/lib/contract/contract'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const picture = (id: string, phase: string, eastM: number, spliceTempC: number, more: Record<string, string | number> = {}) => reading(id, eastM, {
  kind: 'infrared', phase, side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '', splice_temp_c: spliceTempC, conductor_temp_c: 30, ambient_c: 20,
  line_current_a: 600, ...more,
})

describe('a picture beside the other phases of its span', () => {
  it('lists those of the same flight and hour, and none that was taken back', async () => {
    await report('readings', csv([
      picture('a', 'A', 450, 31), picture('b', 'B', 450, 48), picture('c', 'C', 455, 33), picture('far', 'A', 1650, 90),
      picture('late', 'A', 452, 60, { taken_at: '2026-06-01T12:00:00Z' }),
    ]), { survey: 'Flight' })
    const other = await report('readings', csv([picture('other-flight', 'C', 455, 70, { taken_at: '2026-06-01T10:05:00Z' })]), { survey: 'Another flight' })
    const { items } = await listSplices(scope)
    const ofPhase = async (phase: string) => {
      const found = items.find((splice) => splice.phase === phase && splice.line_distance_m < 600)
      return spliceDetail.parse(await getSplice(scope, found?.id ?? 0))
    }
    const b = await ofPhase('B')
    expect(b.other_phases).toHaveLength(1)
    expect(b.other_phases[0]).toMatchObject({ splice_temp_c: 48, line_current_a: 600, others: [{ phase: 'A', splice_temp_c: 31 }, { phase: 'C', splice_temp_c: 33 }] })
    expect((await ofPhase('C')).other_phases.map(({ splice_temp_c: c }) => c)).toEqual([33])
    await undoImport(scope, other.import_id, 'tester')
    expect((await ofPhase('B')).other_phases).toEqual(b.other_phases)
  })
})
