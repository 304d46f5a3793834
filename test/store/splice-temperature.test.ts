import { beforeAll, describe, expect, it } from 'vitest'
import { spliceDetail } from '@/lib/contract/contract'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

beforeAll(async () => {
  await buildNetwork()
  await report('readings', csv([reading('hot', 450, { side_a_uohm: 44, conductor_uohm: 22 })]), { survey: 'Ground' })
})

const temperatures = async () => {
  const [splice] = (await listSplices(scope, { sort: 'worst' })).items
  return spliceDetail.parse(await getSplice(scope, splice?.id ?? 0)).temperatures
}

describe('the temperature of a splice', () => {
  it('at the rating of its section lies over the conductor\'s 75 °C; without a load that of now is not guessed', async () => {
    const found = await temperatures()
    expect(found).toMatchObject({ now: null, no_now: 'Cannot be computed: no load of the section is known. Ask the control room.', no_at_rating: null })
    // The section of Drake may carry 900 A; a splice of ratio 2 stands near 98 °C at 907 A (computed with an independent reference).
    expect(found?.at_rating).toMatchObject({ line_a: 900, ambient_c: 25, wind_m_s: 0.61, weather_at: null })
    expect(found?.at_rating?.believed_c).toBeGreaterThan(90)
    expect(found?.at_rating?.upper_c ?? 0).toBeGreaterThan(found?.at_rating?.believed_c ?? Infinity)
  })

  it('now is that at the last known load, in the last weather that somebody noted there', async () => {
    await report('loads', csv([{ circuit: 'S1', taken_at: '2026-06-02T10:00:00Z', current_a: 450 }]))
    const before = await temperatures()
    expect(before?.now).toMatchObject({ line_a: 450, weather_at: null, ambient_c: 25 })
    await report('readings', csv([{
      ...reading('flown', 450, { kind: 'infrared', taken_at: '2026-06-03T10:00:00Z', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '' }),
      splice_temp_c: 20, conductor_temp_c: 12, ambient_c: 5, wind_m_s: 3, sun: 'none', line_current_a: 400, rain_1h: 'true', // in rain: it tells no ratio
    }]), { survey: 'Flight' })
    const after = await temperatures()
    expect(after?.now).toMatchObject({ line_a: 450, ambient_c: 5, wind_m_s: 3, weather_at: '2026-06-03T10:00:00.000Z' })
    expect(after?.now?.believed_c ?? 99).toBeLessThan(before?.now?.believed_c ?? 0)
    expect(after?.at_rating?.believed_c).toBeCloseTo(before?.at_rating?.believed_c ?? 0, 3)
  })
})
