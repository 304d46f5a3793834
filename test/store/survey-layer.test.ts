import { VectorTile, type VectorTileFeature } from '@mapbox/vector-tile'
import { PbfReader } from 'pbf'
import { beforeAll, describe, expect, it } from 'vitest'
import { endImport } from '@/lib/cases/end-import'
import { coverageSummary, neverPage, spanSurveys, type SurveyFilter } from '@/lib/contract/survey-layer'
import { listCircuits } from '@/lib/store/circuits'
import { coverageOfCircuit } from '@/lib/store/coverage'
import { BadCursor } from '@/lib/store/cursor'
import { getHealth } from '@/lib/store/health'
import { narrowed } from '@/lib/store/scope'
import { surveysOfSpan, tracksOfSurveys } from '@/lib/store/survey-layer'
import { listSurveys } from '@/lib/store/surveys'
import { worldX, worldY } from '@/lib/tiles/splices/morton'
import { coverageFigures, pageOfNever } from '@/lib/tiles/survey/coverage-answers'
import { currentSurvey } from '@/lib/tiles/survey/current-survey'
import { lookAt } from '@/lib/tiles/survey/survey-index'
import { trackRuns } from '@/lib/tiles/survey/tracks'
import { etagNow, surveyTile, trackTile } from '@/lib/tiles/tiles'
import { useDatabase } from './database'
import { at, buildNetwork, csv, importText, reading, report, scope } from './utility'

useDatabase()

let circuits: Record<string, number> = {}
let surveys: Record<string, number> = {}
let walked = 0

const ground = (id: string, eastM: number, more: Record<string, string | number> = {}) => reading(id, eastM, { circuit: 'S1', crew: 'Crew 1', instrument: 'M1', ...more })

/**
 * S1 has ten spans of 300 m, L1 and L2 ten each. S2-S3 was read on phase A in 2024, S6-S7 on phase B in 2025; a flight of 2026 at 200 A of 900 went along
 * S2 to S5 and wrote down nothing. A listed splice hangs in S8-S9, on phase B, that nobody ever read. L1 and L2 were never looked at.
 */
beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([{ splice_id: 'listed', circuit: 'S1', line_distance_m: 2_250, phase: 'B' }]))
  await report('readings', csv([ground('a', 450, { taken_at: '2024-06-01T18:00:00Z' })]), { survey: 'Ground 2024' })
  const { report: { import_id: id } } = await importText('readings', csv([
    ground('late', 1_760, { taken_at: '2025-05-02T18:00:00Z', phase: 'B' }), ground('second', 1_700, { taken_at: '2025-05-01T18:20:00Z', phase: 'B' }),
    ground('first', 1_600, { taken_at: '2025-05-01T18:00:00Z', phase: 'B' }), ground('other', 1_650, { taken_at: '2025-05-01T18:10:00Z', phase: 'B', crew: 'Crew 2' }),
  ]), { survey: 'Ground 2025' })
  walked = id
  await report('extents', csv([{
    survey: 'Flight 2026', circuit: 'S1', structure_from: 'S2', structure_to: 'S5', surveyed_on: '2026-04-01', method: 'infrared', result: 'no exception',
    line_current_a: 200, wind_m_s: 2,
  }]))
  circuits = Object.fromEntries((await listCircuits(scope)).map(({ name, id: circuitId }) => [name, circuitId]))
  surveys = Object.fromEntries((await listSurveys(scope)).map((s) => [s.name, s.id]))
})

const ofS1 = (more: SurveyFilter = {}): SurveyFilter => ({ circuitIds: [circuits.S1 ?? 0], ...more })

/** How each span of S1 is drawn, by the number of its structure behind. */
async function drawn(filter: SurveyFilter) {
  const { index } = await currentSurvey(scope)
  return Object.fromEntries(index.spans.filter((s) => s.circuitId === circuits.S1).map((s) => {
    const look = lookAt(index, s, filter)
    return [s.structureBack, look && [look.state, look.year, look.patrol && 'exceptions only'].filter(Boolean).join(' ')]
  }))
}

const tileOf = (z: number, { lon, lat }: { lon: number; lat: number }) => ({ z, x: worldX(lon) >>> (32 - z), y: worldY(lat) >>> (32 - z) })
function featuresOf(bytes: Uint8Array, layer: string): VectorTileFeature[] {
  const found = new VectorTile(new PbfReader(bytes)).layers[layer]
  return Array.from({ length: found?.length ?? 0 }, (_, i) => found!.feature(i))
}

describe('how spans are drawn', () => {
  it('by the phase that waited longest, flights that wrote down their finds alone and never told apart', async () => {
    expect(await drawn({})).toEqual({
      S1: 'never', S2: 'seen 2026 exceptions only', S3: 'seen 2026 exceptions only', S4: 'seen 2026 exceptions only', S5: 'never', S6: 'part 2025', S7: 'never',
      S8: 'never', S9: 'never', S10: 'never',
    })
  })

  it('by one phase', async () => {
    expect(await drawn({ phases: ['A'] })).toMatchObject({ S2: 'seen 2026 exceptions only', S6: 'never', S8: 'never' })
    expect(await drawn({ phases: ['B'] })).toMatchObject({ S2: 'seen 2026 exceptions only', S6: 'seen 2025' })
  })

  it('by the looks of some years, and never is never whatever the years', async () => {
    expect(await drawn({ years: [2024] })).toMatchObject({ S1: 'never', S2: 'part 2024', S3: 'elsewhen', S6: 'elsewhen', S8: 'never' })
    expect(await drawn({ years: [2024], phases: ['A'] })).toMatchObject({ S2: 'seen 2024', S3: 'elsewhen', S6: 'never' })
  })

  it('as the sheet and the strip have it: never is a span without a look', async () => {
    for (const id of Object.values(circuits)) {
      const { index } = await currentSurvey(scope)
      const never = index.spans.filter((s) => s.circuitId === id && lookAt(index, s, {})?.state === 'never').map((s) => s.id)
      expect(never).toEqual((await coverageOfCircuit(scope, id)).filter(({ seen }) => seen.length === 0).map((s) => s.span_id))
    }
  })

  it('as Health counts it: spans and phases that are not never are those covered', async () => {
    const { index } = await currentSurvey(scope)
    const own = index.spans.filter((s) => s.circuitId === circuits.S1)
    const covered = own.flatMap((s) => (['A', 'B', 'C'] as const).filter((phase) => lookAt(index, s, { phases: [phase] })?.state !== 'never')).length
    expect(covered).toBe(10)
    expect((await getHealth(scope, circuits.S1 ?? 0))?.coverage.covered_span_phases).toBe(covered)
  })
})

describe('figures and the list of what was never surveyed', () => {
  it('count what is drawn', async () => {
    expect(coverageSummary.parse(await coverageFigures(scope, ofS1()))).toMatchObject({
      years: [2026, 2025, 2024], span_count: 10, seen: [{ year: 2026, exceptions_only: true, spans: 3 }], part: 1, elsewhen: 0,
      never: { spans: 6, stretches: 3, length_m: expect.closeTo(1800, -1) },
    })
    expect(await coverageFigures(scope, ofS1({ years: [2024] }))).toMatchObject({ years: [2026, 2025, 2024], seen: [], part: 1, elsewhen: 3, never: { spans: 6 } })
  })

  it('names each stretch with its length, its spans and the splices that hang there', async () => {
    const page = neverPage.parse(await pageOfNever(scope, ofS1(), {}))
    expect(page).toMatchObject({ total: 3, length_m: expect.closeTo(1800, -1), splices: 1, next_cursor: null })
    expect(page.items.map(({ from, to, spans, splices, section }) => [from, to, spans, splices, section])).toEqual([
      ['S7', 'S11', 4, 1, 'main'], ['S1', 'S2', 1, 0, 'main'], ['S5', 'S6', 1, 0, 'main'],
    ])
    expect(page.items[0]).toMatchObject({ start_m: expect.closeTo(1800, -1), end_m: expect.closeTo(3000, -1), length_m: expect.closeTo(1200, -1) })
    const [west, south, east, north] = page.items[0]?.bbox ?? []
    expect([west, east]).toEqual([expect.closeTo(at(1_800, 5_000).lon, 4), expect.closeTo(at(3_000, 5_000).lon, 4)])
    expect([south, north]).toEqual([expect.closeTo(at(0, 5_000).lat, 4), expect.closeTo(at(0, 5_000).lat, 4)])
  })

  it('of one phase names stretches that others were surveyed on, and leaves out splices of other phases', async () => {
    const { items } = await pageOfNever(scope, ofS1({ phases: ['A'] }), {})
    expect(items.map(({ from, to, splices }) => [from, to, splices])).toEqual([['S5', 'S11', 0], ['S1', 'S2', 0]])
  })

  it('comes in pages, in the order asked for, and refuses a cursor of another list', async () => {
    const first = await pageOfNever(scope, {}, { sort: 'circuit', limit: 2 })
    expect([first.total, first.items.map((s) => s.circuit)]).toEqual([5, ['L1', 'L2']])
    const second = await pageOfNever(scope, {}, { sort: 'circuit', limit: 2, cursor: first.next_cursor ?? '' })
    const third = await pageOfNever(scope, {}, { sort: 'circuit', limit: 2, cursor: second.next_cursor ?? '' })
    expect([...second.items, ...third.items].map(({ from }) => from)).toEqual(['S1', 'S5', 'S7'])
    expect(third.next_cursor).toBeNull()
    await expect(pageOfNever(scope, {}, { sort: 'length', limit: 2, cursor: first.next_cursor ?? '' })).rejects.toThrow(BadCursor)
    expect((await pageOfNever(scope, {}, { sort: 'splices', limit: 1 })).items[0]?.from).toBe('S7')
  })

  it('is of the circuits that somebody may see', async () => {
    const own = narrowed(scope, [circuits.S1 ?? 0])
    expect((await pageOfNever(own, {}, {})).total).toBe(3)
    expect((await coverageFigures(own, {})).span_count).toBe(10)
  })
})

describe('a span, look by look', () => {
  const spanAt = async (back: string) => (await currentSurvey(scope)).index.spans.find((s) => s.structureBack === back)?.id ?? 0

  it('says what each survey saw of each phase and why it proves nothing', async () => {
    const span = spanSurveys.parse(await surveysOfSpan(scope, await spanAt('S2')))
    expect(span).toMatchObject({ circuit: 'S1', structure_back: 'S2', structure_ahead: 'S3' })
    expect(span.phases.map(({ phase }) => phase)).toEqual(['A', 'B', 'C'])
    expect(span.phases[0]).toEqual({
      phase: 'A', conclusive_on: '2024-06-01', looks: [
        { method: 'infrared', survey: 'Flight 2026', surveyed_on: '2026-04-01', exceptions_only: true, in_vain: ['low-load'] },
        { method: 'resistance', survey: 'Ground 2024', surveyed_on: '2024-06-01', exceptions_only: false, in_vain: [] },
      ],
    })
    expect(span.phases[1]).toMatchObject({ conclusive_on: null, looks: [{ survey: 'Flight 2026', in_vain: ['low-load'] }] })
  })

  it('that nobody looked at has none, and one out of scope is not there', async () => {
    expect((await surveysOfSpan(scope, await spanAt('S8')))?.phases).toEqual([])
    expect(await surveysOfSpan(narrowed(scope, [circuits.L1 ?? 0]), await spanAt('S8'))).toBeUndefined()
    expect(await surveysOfSpan(scope, 999_999)).toBeUndefined()
  })

  it('doubts of a patrol are those by which the roll-up believes it', async () => {
    const flown = async (survey: string, more: Record<string, string | number>) => {
      await report('extents', csv([{ survey, circuit: 'L1', structure_from: '1', structure_to: '2', surveyed_on: '2023-04-01', method: 'thermal', result: '', ...more }]))
      const span = (await currentSurvey(scope)).index.spans.find((s) => s.circuitId === circuits.L1 && s.structureBack === '1')?.id ?? 0
      const phase = (await surveysOfSpan(scope, span))?.phases[0]
      const found = phase?.looks.find((look) => look.survey === survey)
      return [found?.in_vain, phase?.conclusive_on]
    }
    expect(await flown('no load', { wind_m_s: 2 })).toEqual([['load-unknown'], null])
    expect(await flown('windy', { line_current_a: 500, wind_m_s: 6 })).toEqual([['wind'], null])
    expect(await flown('calm unknown', { line_current_a: 300 })).toEqual([['low-load', 'wind-unknown'], null])
    expect(await flown('by eye', { line_current_a: 500, wind_m_s: 2, method: 'visual' })).toEqual([['not-infrared'], null])
    // 40 % of 900 A is 360 A, and 4 m/s the policy's wind.
    expect(await flown('good', { line_current_a: 360, wind_m_s: 4 })).toEqual([[], '2023-04-01'])
  })
})

describe('survey tiles', () => {
  it('have spans with their state from near, joined stretches from afar, and a line a phase from nearer still', async () => {
    const near = featuresOf((await surveyTile(scope, tileOf(12, at(600, 5_000)), ofS1())).bytes, 'spans')
    expect(near.find((f) => f.properties.back === 'S2')?.properties).toMatchObject({ state: 'seen', year: 2026, patrol: 1, ahead: 'S3', name: 'S1' })
    expect(near.find((f) => f.properties.back === 'S1')?.properties).toMatchObject({ state: 'never' })
    const afar = featuresOf((await surveyTile(scope, tileOf(10, at(600, 5_000)), ofS1())).bytes, 'stretches')
    expect(afar.map((f) => f.properties.state)).toEqual(expect.arrayContaining(['never', 'seen', 'part']))
    expect(afar.length).toBeLessThan(10)
    const nearer = featuresOf((await surveyTile(scope, tileOf(14, at(450, 5_000)), ofS1())).bytes, 'phases').filter((f) => f.properties.circuit === circuits.S1)
    expect(new Set(nearer.map((f) => `${String(f.properties.phase)} ${String(f.properties.nth)}`))).toEqual(new Set(['A -1', 'B 0', 'C 1']))
  })

  it('leave out the circuits that the filter does, change their ETag with the filter, and keep it while nothing changes', async () => {
    const of = (filter: SurveyFilter) => surveyTile(scope, tileOf(12, at(600, 0)), filter)
    expect(featuresOf((await of({ circuitIds: [circuits.L2 ?? 0] })).bytes, 'spans').every((f) => f.properties.circuit === circuits.L2)).toBe(true)
    expect((await of(ofS1())).bytes).toHaveLength(0)
    const tags = await Promise.all([of({}), of({ phases: ['A'] }), of({ years: [2024] })].map(async (tile) => (await tile).etag))
    expect(new Set(tags).size).toBe(3)
    expect(await etagNow(scope, 'phase=A')).toBe(tags[1])
  })
})

describe('tracks', () => {
  it('run in time order whatever the order of rows, one for each crew, and break with the day as those of placing do', async () => {
    const streams = await tracksOfSurveys(scope, [surveys['Ground 2025'] ?? 0])
    expect(streams.map(({ crew, instrument, positionOf }) => [crew, instrument, positionOf])).toEqual([['Crew 1', 'M1', 'target'], ['Crew 2', 'M1', 'target']])
    const [first, second] = streams.map(trackRuns)
    expect(first?.map(({ points }) => points.map(([lon]) => lon))).toEqual([
      [expect.closeTo(at(1_600, 0).lon, 5), expect.closeTo(at(1_700, 0).lon, 5)], [expect.closeTo(at(1_760, 0).lon, 5)],
    ])
    expect(first?.[0]).toMatchObject({ startMs: Date.parse('2025-05-01T18:00:00Z'), endMs: Date.parse('2025-05-01T18:20:00Z') })
    expect(second).toHaveLength(1)
  })

  it('are cut into tiles with who took them and when, drawn from the first reading to the last', async () => {
    const { bytes } = await trackTile(scope, tileOf(14, at(1_650, 5_000)), [surveys['Ground 2025'] ?? 0])
    const [track] = featuresOf(bytes, 'tracks')
    expect(track?.properties).toMatchObject({ survey: 'Ground 2025', crew: 'Crew 1', instrument: 'M1', readings: 2, start_ms: Date.parse('2025-05-01T18:00:00Z') })
    const [[from, to] = []] = track?.loadGeometry() ?? []
    expect(to!.x).toBeGreaterThan(from!.x)
    expect(featuresOf(bytes, 'readings')).toHaveLength(4)
    expect((await trackTile(scope, tileOf(14, at(1_650, 5_000)), [])).bytes).toHaveLength(0)
  })

  it('are of readings within the scope that still count', async () => {
    expect(await tracksOfSurveys(narrowed(scope, [circuits.L1 ?? 0]), [surveys['Ground 2025'] ?? 0])).toEqual([])
    const before = await etagNow(scope, '')
    await endImport(scope, walked, 'tester')
    expect(await tracksOfSurveys(scope, [surveys['Ground 2025'] ?? 0])).toEqual([])
    expect(await etagNow(scope, '')).not.toBe(before)
    // What only those readings saw was never surveyed now.
    expect(await drawn({})).toMatchObject({ S6: 'never' })
  })
})
