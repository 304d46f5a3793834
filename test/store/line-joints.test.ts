import { beforeAll, describe, expect, it } from 'vitest'
import { answerOf } from '@/components/loading/answer'
import { lineSections } from '@/components/loading/line-model'
import { undoImport } from '@/lib/cases/undo-import'
import { circuitJoints, sectionList } from '@/lib/contract/loading'
import { listCircuits } from '@/lib/store/circuits'
import { jointsOfCircuit, listSections } from '@/lib/store/line-joints'
import { currentPolicy } from '@/lib/store/policies'
import { narrowed } from '@/lib/store/scope'
import { lowestSpliceLimits } from '@/lib/store/section-limits'
import { getSplice } from '@/lib/store/splice-detail'
import { useDatabase } from './database'
import { buildNetwork, csv, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()

/** The test lines run from west to east. */
const AZIMUTH_OF_S1 = 90

let circuits: Record<string, number> = {}
const load = (hour: number, current_a: number, quality = 'measured') =>
  ({ circuit: 'S1', section: 'main', taken_at: `2026-06-01T${String(hour).padStart(2, '0')}:00:00Z`, current_a, quality })

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([
    { splice_id: 'bad', circuit: 'S1', line_distance_m: 450, phase: 'A', kind: 'full-tension splice', barrel_od_mm: 47.6 },
    { splice_id: 'unread', circuit: 'S1', line_distance_m: 1500, phase: 'B', kind: 'full-tension splice', barrel_od_mm: '' },
    { splice_id: 'gone', circuit: 'S1', line_distance_m: 2000, phase: 'B', kind: 'full-tension splice', removed_on: '2025-01-01' },
  ]))
  await report('readings', csv([reading('r', 450, { splice_id: 'bad', circuit: 'S1', side_a_uohm: 46 })]))
  await report('loads', csv([
    { ...load(0, 300), taken_at: '2026-05-30T00:00:00Z' }, load(9, 410), load(10, 512, 'estimated'), load(11, 990, 'suspect'),
    load(12, 700, 'expected-peak'), load(13, 740, 'expected-peak'), load(12, 880, 'post-contingency'),
  ]))
  circuits = Object.fromEntries((await listCircuits(scope)).map(({ name, id }) => [name, id]))
})

const ofS1 = async () => circuitJoints.parse(await jointsOfCircuit(scope, circuits.S1 ?? 0))

describe('the splices of a circuit as a question of load takes them', () => {
  it('are those in service, in line order, with the ratio their own limit is drawn at', async () => {
    const { joints } = await ofS1()
    expect(joints.map(({ splice }) => splice)).toEqual(['bad', 'unread'])
    const [bad] = joints
    const detail = await getSplice(scope, bad?.id ?? 0)
    expect(detail?.outlook?.limit?.upper_k).toBeGreaterThan(2)
    expect(bad).toMatchObject({ class: detail?.class, basis: 'read', structure_back: 'S2', structure_ahead: 'S3', barrel_od_mm: 47.6 })
    expect(bad?.figure).toBe(true)
    // Urgent: the paper it stands on lapses by what falls due of it.
    expect(bad?.response?.raised_at).toBe(detail?.raised_at)
    expect(bad?.response?.actions).not.toEqual([])
    expect(bad?.upper_k).toBeCloseTo(detail?.outlook?.limit?.upper_k ?? NaN, 9)
  })

  it('include the one that nobody read, as unknown and never as sound', async () => {
    const { joints } = await ofS1()
    expect(joints[1]).toMatchObject({ class: 'unknown', basis: 'unread', barrel_od_mm: null })
    // Of two splices the one that was read lies under more than the policy believes of an unread one: so may the other.
    expect(joints[1]?.upper_k).toBe(joints[0]?.upper_k)
    expect(joints[1]?.figure).toBe(false)
  })

  it('hang on sections with structures, ratings, sizes of barrels and the day of their last known load', async () => {
    const { sections: [main] } = await ofS1()
    expect(main?.azimuth_deg).toBeCloseTo(AZIMUTH_OF_S1, 1)
    expect(main).toMatchObject({
      circuit: 'S1', name: 'main', conductor: 'Drake', rating_a: 900, max_operating_c: 75, voltage_kv: 230, splice_count: 2, barrels_od_mm: [47.6],
      barrels_unknown: 1, last_load: { current_a: 512, quality: 'estimated' }, expected_peak: { current_a: 740 }, post_contingency: { current_a: 880 },
    })
    expect(main?.day_loads).toEqual([
      { taken_at: '2026-06-01T09:00:00.000Z', current_a: 410 }, { taken_at: '2026-06-01T10:00:00.000Z', current_a: 512 },
    ])
    expect(main?.structures).toHaveLength(11)
    expect(main?.structures[1]).toMatchObject({ structure: 'S2', line_distance_m: expect.closeTo(300, 0) })
  })

  it('are seen by those who may see the circuit, and by nobody else', async () => {
    const other = narrowed(scope, [circuits.L1 ?? 0])
    expect(await jointsOfCircuit(other, circuits.S1 ?? 0)).toBeUndefined()
    expect((await listSections(other)).map(({ circuit }) => circuit)).toEqual(['L1'])
    expect(sectionList.parse({ items: await listSections(scope) }).items.map(({ circuit }) => circuit)).toEqual(['L1', 'L2', 'S1'])
    expect(await jointsOfCircuit(scope, 999_999)).toBeUndefined()
  })

  it('of a circuit without any are none, and its loads are not known', async () => {
    const found = circuitJoints.parse(await jointsOfCircuit(scope, circuits.L1 ?? 0))
    expect(found.joints).toEqual([])
    expect(found.sections[0]).toMatchObject({ last_load: null, day_loads: [], splice_count: 0, barrels_od_mm: [] })
  })
})

describe('what a circuit may carry', () => {
  it('is the same on its own sheet and where a load is put on it', async () => {
    await report('splices', csv([
      { splice_id: 'worse', circuit: 'S1', line_distance_m: 1800, phase: 'C', kind: 'full-tension splice', barrel_od_mm: 47.6 },
      { splice_id: 'strands', circuit: 'S1', line_distance_m: 2100, phase: 'C', kind: 'wedge' },
    ]))
    const none = { side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '' }
    await report('readings', csv([
      reading('w', 1800, { splice_id: 'worse', circuit: 'S1', phase: 'C', side_a_uohm: 60 }),
      reading('v', 2100, { splice_id: 'strands', circuit: 'S1', phase: 'C', kind: 'visual', findings: 'broken-strands', ...none }),
    ]))
    const [policy, line, sheet] = await Promise.all([currentPolicy(scope), ofS1(), lowestSpliceLimits(scope, circuits.S1 ?? 0)])
    const inputs = { circuit: [line.circuit_id], bbox: null, air: null, wind: null, angle: null, sun: null, load: 'rating' as const, a: null, figure: 'peak' as const, source: null, share: null }
    const [loading] = answerOf(lineSections([line], policy), inputs, policy).limits
    const stated = sheet.find(({ figure }) => figure)
    expect(stated?.splice).toBe('worse')
    expect(loading?.rated).toMatchObject({ joint: { of: { id: stated?.splice_id } }, limit: { lineA: stated?.line_a, limitedBy: 'splice' } })
    expect(loading?.mayBeLower.map(({ splice }) => splice)).toEqual(['strands'])
    expect(sheet.filter(({ figure }) => !figure).map(({ splice }) => splice)).toEqual(['strands'])
  })
})

describe('the elevation of a section', () => {
  const again = (elevation_m: number) => report('lines', linesFile([lineFeature('S1', 5_000, { elevation_m })]))
  const sheetLimitA = async (id: number) => (await getSplice(scope, id))?.outlook?.limit?.line_a ?? NaN

  // IEEE Std 738: thinner air cools less, so that a splice may carry less in it.
  it('comes with its line, lowers what its splices may carry, alike on the sheet and on Loading, and goes with the undo', async () => {
    const { sections: [before], joints: [bad] } = await ofS1()
    const id = bad?.id ?? 0
    expect(before?.elevation_m).toBeNull()
    const atSeaA = await sheetLimitA(id)
    const { import_id: importId } = await again(2500)
    const high = await ofS1()
    expect(high.sections[0]?.elevation_m).toBe(2500)
    const highA = await sheetLimitA(id)
    expect(highA).toBeLessThan(0.97 * atSeaA)
    const [stated] = await lowestSpliceLimits(scope, circuits.S1 ?? 0)
    expect(stated?.line_a).toBeCloseTo(await sheetLimitA(stated?.splice_id ?? 0), 3)
    expect((await getSplice(scope, id))?.outlook?.limit?.weather.elevation_m).toBe(2500)
    await undoImport(scope, importId ?? 0, 'tester')
    expect((await ofS1()).sections[0]?.elevation_m).toBeNull()
    expect(await sheetLimitA(id)).toBeCloseTo(atSeaA, 3)
  })

  it('out of range is left out and said', async () => {
    const told = await again(9000)
    expect(told.issues).toContainEqual(expect.objectContaining({ field: 'elevation_m', value: '9000' }))
    expect((await ofS1()).sections[0]?.elevation_m).toBeNull()
  })
})

describe('a splice that infrared shows hotter than its ratio makes it', () => {
  it('has no ratio on show, no current and no temperature, and may be lower', async () => {
    const hot = {
      ...reading('h2', 2700, { splice_id: 'hot', circuit: 'S1', taken_at: '2026-08-04T09:00:00Z', kind: 'infrared', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '' }),
      electrode_span_m: '', splice_temp_c: 88.1, conductor_temp_c: 36.8, ambient_c: 25, line_current_a: 420, distance_m: 200, ifov_mrad: 0.34,
    }
    await report('splices', csv([{ splice_id: 'hot', circuit: 'S1', line_distance_m: 2700, phase: 'A', kind: 'full-tension splice' }]))
    await report('readings', csv([reading('h1', 2700, { splice_id: 'hot', circuit: 'S1', taken_at: '2026-05-04T09:00:00Z', side_a_uohm: 14.6, side_b_uohm: 15.5 })]))
    await report('readings', csv([hot]))
    const joint = (await ofS1()).joints.find(({ splice }) => splice === 'hot')
    expect(joint).toMatchObject({ class: 'urgent', basis: 'contradicted', figure: false })
    const detail = await getSplice(scope, joint?.id ?? 0)
    expect(detail).toMatchObject({ ratio: null, outlook: { limit: null }, temperatures: { at_load: null, at_rating: null } })
    expect(detail?.temperatures?.no_at_rating).toContain('hotter than its ratio makes it')
    expect((await lowestSpliceLimits(scope, circuits.S1 ?? 0)).find(({ splice }) => splice === 'hot')).toMatchObject({ figure: false, line_a: null })
  })
})
