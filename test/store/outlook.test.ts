import { beforeAll, describe, expect, it } from 'vitest'
import { assess, defaultPolicy, type Assessment } from '@/lib/condition'
import { showWorking } from '@/lib/cases/show-working'
import { undoImport } from '@/lib/cases/undo-import'
import { NO_LIMIT_WHILE_HELD, NO_TEMPERATURE_WHILE_HELD } from '@/lib/condition/words'
import { spliceDetail, type SpliceDetail } from '@/lib/contract/contract'
import { working } from '@/lib/contract/outlook'
import { loadSubjects } from '@/lib/store/evidence'
import { currentPolicy } from '@/lib/store/policies'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { at, buildNetwork, csv, importText, lineFeature, reading, scope } from './utility'

useDatabase()

/** Line distances of the splices, one for each story. */
const AT = { growing: 450, warm: 750, bare: 1050, unread: 1350, withdrawn: 1650 }
type Story = keyof typeof AT

const RATING_A = 900
const VOLTAGE_KV = 230

beforeAll(async () => {
  await buildNetwork()
  await importText('lines', JSON.stringify({ type: 'FeatureCollection', features: [lineFeature('N1', 9_000, { conductor: '' })] }))
  await importText('splices', csv(Object.entries(AT).map(([name, m]) => (
    { splice_id: name, circuit: name === 'bare' ? 'N1' : 'S1', line_distance_m: m, phase: 'A', barrel_od_mm: 47.8, installed_on: '2001-07-01' }))))
})

async function spliceOf(label: Story): Promise<SpliceDetail> {
  const row = (await listSplices(scope, { limit: 500 })).items.find((s) => s.splice === label)
  const detail = await getSplice(scope, row?.id ?? 0)
  if (!detail) throw new Error(`There is no splice ${label}.`)
  return spliceDetail.parse(detail)
}

let surveys = 0
const send = (...rows: Record<string, string | number>[]) => importText('readings', csv(rows), { survey: `Survey ${++surveys}` }, `file-${surveys}.csv`)
const read = (of: Story, year: number, sideAUohm: number, more: Record<string, string | number> = {}) => reading(`${of}-${year}`, AT[of], {
  taken_at: `${year}-06-01T18:00:00Z`, splice_id: of, circuit: 'S1', side_a_uohm: sideAUohm, conductor_uohm: 20, structure_back: 'S2', structure_ahead: 'S3', ...more,
})
const picture = (of: Story, id: string, more: Record<string, string | number> = {}): Record<string, string | number> => ({
  reading_id: id, taken_at: '2026-06-02T18:00:00Z', ...at(AT[of], 5_000), gnss_accuracy_m: 3, platform: 'ground', kind: 'infrared', phase: 'A', splice_id: of,
  circuit: 'S1', splice_temp_c: 71, conductor_temp_c: 52, reference_kind: 'own-conductor', ambient_c: 24, wind_m_s: 1, sun: 'direct', rain_1h: 'no',
  line_current_a: 720, current_30min_a: 715, emissivity: 0.7, distance_m: 20, view_angle_deg: 20, ifov_mrad: 0.5, band: 'lw', ...more,
})

describe('a splice whose side grows', () => {
  it('has a trend and a current that it may carry, under its section’s rating', async () => {
    await send(read('growing', 2022, 24))
    await send(read('growing', 2024, 30))
    await send(read('growing', 2026, 38))
    const { outlook, measured_class: found } = await spliceOf('growing')
    const a = outlook?.trends.find(({ series }) => series === 'A')
    expect(a).toMatchObject({ growing: true, method: 'readings' })
    expect(a?.points.map(({ k }) => k)).toEqual([1.2, 1.5, 1.9])
    // Two equal steps of time: the slope of the middle lies between the slopes of the steps.
    const [first, second] = [Math.log(1.5 / 1.2) / 2, Math.log(1.9 / 1.5) / 2]
    expect(a?.growth_per_year).toBeGreaterThan(Math.min(first, second) - 0.002)
    expect(a?.growth_per_year).toBeLessThan(Math.max(first, second) + 0.002)
    expect(found).toBe('urgent')
    expect(outlook?.next_reading_due_at ?? null).toBeNull() // it is looked at in each peak-load period until it is repaired
    const limit = outlook?.limit
    expect(limit?.line_a).toBeGreaterThan(0)
    expect(limit?.line_a).toBeLessThan(RATING_A)
    expect(limit?.limited_by).toBe('splice')
    // Apparent power of three phases (definition).
    expect(limit?.mva).toBeCloseTo((Math.sqrt(3) * VOLTAGE_KV * (limit?.line_a ?? 0)) / 1000, 6)
    expect(outlook?.no_limit).toBeNull()
  })

  it('shows its working: as many steps as the engine has, ending in the stored figures', async () => {
    const detail = await spliceOf('growing')
    const shown = await showWorking(scope, detail.id)
    if (!shown.ok) throw new Error(shown.error.message)
    const { steps, policy_version: policyVersion } = working.parse(shown.value)
    expect(policyVersion).toBe((await currentPolicy(scope)).version)
    const line = steps.find(({ title }) => title === 'Limit: current of the line')
    expect(line?.result.value).toBeCloseTo(detail.outlook?.limit?.line_a ?? 0, 9)
    expect(steps.find(({ title }) => title === 'Side A: ratio')?.result.value).toBeCloseTo(1.9, 12)
  })
})

describe('a splice that a camera saw', () => {
  it('gets a ratio by the heat balance of its conductor, barrel and the sun where it hangs', async () => {
    const imported = await send(picture('warm', 'warm-picture'))
    const { outlook, assessment } = await spliceOf('warm')
    expect(outlook?.fusion?.taken).toBe('infrared')
    const [source] = outlook?.fusion?.sources ?? []
    // The same picture with every fact as the files have it: an east-west line at 47.045° N, 113.99° W.
    const byHand: Assessment = assess({
      facts: {
        kind: 'full-tension splice', conductorCode: 'Drake', subconductors: 1, barrelOdMm: 47.8, ratingA: RATING_A, maxOperatingC: 75, voltageKv: VOLTAGE_KV,
        latitudeDeg: at(0, 5_000).lat, longitudeDeg: at(AT.warm, 0).lon, lineAzimuthDeg: 90,
      },
      evidence: [{
        source: 'infrared', readingId: 1, takenAtMs: Date.parse('2026-06-02T18:00:00Z'), afterRepair: false, spliceTempC: 71, conductorTempC: 52,
        referenceKind: 'own-conductor', ambientC: 24, windMS: 1, sun: 'direct', rain1h: false, lineCurrentA: 720, current30minA: 715, emissivity: 0.7,
        distanceM: 20, viewAngleDeg: 20, ifovMrad: 0.5, band: 'lw',
      }],
      policy: defaultPolicy, asOfMs: Date.parse('2026-06-02T18:00:00Z'),
    })
    expect(source?.k).toBeCloseTo(byHand.fusion?.sources[0]?.k ?? 0, 4)
    expect(source?.k).toBeGreaterThan(1)
    expect((assessment as { ratio?: number } | null)?.ratio).toBeUndefined()
    await undoImport(scope, imported.report.import_id, 'tester')
    expect((await spliceOf('warm')).outlook).toMatchObject({ fusion: null, trends: [], limit: null })
  })

  it('is fed with latitude, longitude, direction of its span, voltage and the day it was put up', async () => {
    const { id } = await spliceOf('unread')
    const [subject] = await loadSubjects(scope, [id], database())
    const facts = subject?.().facts
    expect(facts?.lineAzimuthDeg).toBeCloseTo(90, 1)
    expect(facts?.latitudeDeg).toBeCloseTo(at(0, 5_000).lat, 3)
    expect(facts?.longitudeDeg).toBeCloseTo(at(AT.unread, 0).lon, 3)
    expect(facts?.voltageKv).toBe(VOLTAGE_KV)
    expect(facts?.installedAtMs).toBe(Date.UTC(2001, 6, 1))
  })
})

describe('a splice that no limit can be drawn for', () => {
  it('says what is missing and whom to ask', async () => {
    await send({ ...read('bare', 2026, 40), ...at(AT.bare, 9_000), circuit: 'N1', structure_back: '', structure_ahead: '' })
    const { outlook, class: shown } = await spliceOf('bare')
    expect(shown).not.toBe('sound')
    expect(outlook?.limit).toBeNull()
    expect(outlook?.no_limit).toBe('Not known: the conductor of the section is not on record. Ask line engineering for its code word.')
    expect((await spliceOf('unread')).outlook?.no_limit ?? null).toBe((await spliceOf('unread')).outlook === null ? null : 'Not known: no usable ratio has been read. Until it is, ask the rating engineer.')
  })
})

describe('a splice whose class is held by a finding that was withdrawn', () => {
  it('is given no current anywhere, though what was read after it gives one', async () => {
    const there = { structure_back: 'S6', structure_ahead: 'S7' }
    const { import_id: importId } = (await send(read('withdrawn', 2025, 60, there))).report
    await send(read('withdrawn', 2026, 24, there))
    await undoImport(scope, importId, 'tester')
    const splice = await spliceOf('withdrawn')
    expect(splice).toMatchObject({ class: 'critical', held: true, measured_class: 'watch', hold: { withdrawn: { file_name: expect.any(String) } } })
    expect((splice.assessment as { limit?: object }).limit).toBeDefined()
    expect(splice.outlook).toMatchObject({ limit: null, no_limit: NO_LIMIT_WHILE_HELD })
    expect(splice.temperatures).toMatchObject({ at_load: null, at_rating: null, no_at_load: NO_TEMPERATURE_WHILE_HELD, no_at_rating: NO_TEMPERATURE_WHILE_HELD })
    expect(splice.assessment_text?.reasons.join(' ')).not.toMatch(/ A per phase/)
    const shown = await showWorking(scope, splice.id)
    expect(shown.ok && shown.value.steps.map(({ title }) => title).filter((title) => title.startsWith('Limit'))).toEqual([])
  })
})
