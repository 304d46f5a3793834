import { beforeAll, describe, expect, it } from 'vitest'
import { showWorking } from '@/lib/cases/show-working'
import { INFRARED_SEES_MEAN, RATIO_AT_LEAST } from '@/lib/condition/no-limit'
import { circuitDetail } from '@/lib/contract/api'
import { spliceDetail } from '@/lib/contract/contract'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
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
    expect(found).toMatchObject({ at_load: null, no_at_load: 'Cannot be computed: no load of the section is known. Ask the control room.', no_at_rating: null })
    // The section of Drake may carry 900 A; a splice of ratio 2 stands near 98 °C at 907 A (computed with an independent reference).
    expect(found?.at_rating).toMatchObject({ line_a: 900, ambient_c: 25, wind_m_s: 0.61, weather_at: null })
    expect(found?.at_rating?.believed_c).toBeGreaterThan(90)
    expect(found?.at_rating?.upper_c ?? 0).toBeGreaterThan(found?.at_rating?.believed_c ?? Infinity)
  })

  it('comes with how the rating stands to its conductor: Drake carries 907 A at 75 °C in that weather', async () => {
    const found = await temperatures()
    // Published handbook ampacity of Drake (25 °C air, 2 ft/s, sun), to 1 %; the section is rated 900 A.
    expect(Math.abs((found?.edges_at_a ?? 0) / 907 - 1)).toBeLessThan(0.01)
    expect(found?.conductor_at_rating_c).toBeGreaterThan(73)
    expect(found?.conductor_at_rating_c).toBeLessThan(75)
  })

  const flown = (key: string, takenAt: string) => report('readings', csv([{
    ...reading(key, 450, { kind: 'infrared', taken_at: takenAt, side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '' }),
    splice_temp_c: 20, conductor_temp_c: 12, ambient_c: 5, wind_m_s: 3, sun: 'none', line_current_a: 400, rain_1h: 'true', // in rain: it tells no ratio
  }]), { survey: 'Flight' })

  it('at the last known load is that of rating weather: an old survey’s wind makes no splice look cool', async () => {
    await report('loads', csv([{ circuit: 'S1', taken_at: '2026-06-02T10:00:00Z', current_a: 450 }]))
    await flown('flown', '2026-06-03T10:00:00Z')
    expect((await temperatures())?.at_load).toMatchObject({ line_a: 450, weather_at: null, ambient_c: 25, wind_m_s: 0.61 })
  })

  it('takes the weather noted at the splice only where that and the load are of the last hour', async () => {
    const old = await temperatures()
    const justNow = new Date(Date.now() - 10 * 60_000).toISOString()
    await report('loads', csv([{ circuit: 'S1', taken_at: justNow, current_a: 450 }]))
    expect((await temperatures())?.at_load).toMatchObject({ weather_at: null })
    await flown('just now', justNow)
    const present = await temperatures()
    expect(present?.at_load).toMatchObject({ line_a: 450, ambient_c: 5, wind_m_s: 3, weather_at: justNow })
    expect(present?.at_load?.believed_c ?? 99).toBeLessThan(old?.at_load?.believed_c ?? 0)
    expect(present?.at_rating?.believed_c).toBeCloseTo(old?.at_rating?.believed_c ?? 0, 3)
  })
})

describe('what a circuit may carry', () => {
  it('is what the sheet of its lowest splice says, and a section that no splice limits has none', async () => {
    const [splice] = (await listSplices(scope, { sort: 'worst' })).items
    const sheet = spliceDetail.parse(await getSplice(scope, splice?.id ?? 0))
    expect(sheet.outlook?.limit?.limited_by).toBe('splice')
    const circuits = await listCircuits(scope)
    const of = async (name: string) => circuitDetail.parse(await getCircuit(scope, circuits.find((c) => c.name === name)?.id ?? 0)).splice_limits
    const limits = await of('S1')
    expect(limits).toMatchObject([{ splice_id: sheet.id, class: sheet.class, held: false }])
    expect(limits[0]?.line_a).toBeCloseTo(sheet.outlook?.limit?.line_a ?? 0, 6)
    expect(await of('L1')).toEqual([])
  })

  it('comes with what hotter air leaves of it, which falls as the square root of what is left to the temperature', async () => {
    const { items: [splice] } = await listSplices(scope, { sort: 'worst' })
    const { outlook } = spliceDetail.parse(await getSplice(scope, splice?.id ?? 0))
    const lineA = outlook?.limit?.line_a ?? NaN
    expect(outlook?.in_hotter_air.map(({ ambient_c: ambientC }) => ambientC)).toEqual([30, 35, 40])
    // IEEE 738: convection goes with the difference to the air, radiation and sun change it by a few per cent.
    for (const { ambient_c: ambientC, line_a: thenA } of outlook?.in_hotter_air ?? []) {
      expect(thenA / lineA / Math.sqrt((93 - ambientC) / (93 - 25))).toBeCloseTo(1, 1)
      expect(thenA).toBeLessThan(lineA)
    }
  })

  it('is that of a held finding whose reading stands, as on the sheet of its splice, which says so, until it is cleared', async () => {
    await report('readings', csv([reading('bad', 1050, { taken_at: '2026-06-01T10:00:00Z', side_a_uohm: 66, conductor_uohm: 20 })]), { survey: 'Bad' })
    await report('readings', csv([reading('mild', 1050, { taken_at: '2026-07-01T10:00:00Z', side_a_uohm: 12, conductor_uohm: 20 })]), { survey: 'Mild' })
    const circuit = (await listCircuits(scope)).find((c) => c.name === 'S1')
    const limits = circuitDetail.parse(await getCircuit(scope, circuit?.id ?? 0)).splice_limits
    expect(limits).toMatchObject([{ class: 'critical', held: true, figure: true }])
    const sheet = spliceDetail.parse(await getSplice(scope, limits[0]?.splice_id ?? 0))
    expect(sheet.outlook).toMatchObject({ no_limit: null, limit: { held_ratio: 3.3, limited_by: 'splice' } })
    expect(sheet.outlook?.limit?.upper_k).toBeGreaterThan(3.3)
    expect(limits[0]?.line_a).toBeCloseTo(sheet.outlook?.limit?.line_a ?? 0, 3)
    const working = await showWorking(scope, sheet.id)
    expect(working.ok && JSON.stringify(working.value.steps)).toContain('at ratio 3.30, the finding that holds it, until cleared')
  })
})

describe('a ratio of which nobody knows what it lies under', () => {
  const sheetOf = async (reason: string) => {
    const items = (await listSplices(scope, { sort: 'worst' })).items
    const sheets = await Promise.all(items.map(async ({ id }) => spliceDetail.parse(await getSplice(scope, id))))
    return sheets.find(({ outlook }) => outlook?.no_limit === reason)
  }

  it('gives neither current nor temperature where a picture shows the mean of the splice', async () => {
    await report('readings', csv([{
      ...reading('warm', 750, { kind: 'infrared', taken_at: '2026-06-04T02:00:00Z', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '' }),
      splice_temp_c: 63, conductor_temp_c: 62, ambient_c: 20, sun: 'none', line_current_a: 850, current_30min_a: 850,
    }]), { survey: 'Night flight' })
    const sheet = await sheetOf(INFRARED_SEES_MEAN)
    expect(sheet?.outlook?.limit).toBeNull()
    expect(sheet?.temperatures).toMatchObject({ at_rating: null, no_at_rating: INFRARED_SEES_MEAN, at_load: null, no_at_load: INFRARED_SEES_MEAN })
  })

  it('gives neither where the barrel electrode sat within the crimp, as the file of readings said', async () => {
    await report('readings', csv([reading('crimp', 850, { taken_at: '2026-06-05T10:00:00Z', side_a_uohm: 30, conductor_uohm: 22 })].map((row) => ({ ...row, barrel_electrode_m: 0.02 }))), { survey: 'Crimp' })
    const sheet = await sheetOf(RATIO_AT_LEAST)
    expect(sheet?.assessment_text?.headline).toContain('at least')
    expect(sheet?.temperatures).toMatchObject({ at_rating: null, no_at_rating: RATIO_AT_LEAST })
  })
})
