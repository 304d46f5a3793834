import { beforeAll, describe, expect, it } from 'vitest'
import { classNow } from '@/components/splice/past-re-measure'
import { changePolicy } from '@/lib/cases/change-policy'
import { reassessNetwork } from '@/lib/cases/reassess-network'
import { undoImport } from '@/lib/cases/undo-import'
import { CONDITION_CLASSES } from '@/lib/condition'
import { circuitHealth } from '@/lib/contract/contract'
import { spanCoverage } from '@/lib/contract/coverage'
import type { SpliceFilter } from '@/lib/contract/filter'
import { listCircuits } from '@/lib/store/circuits'
import { coverageOfCircuit } from '@/lib/store/coverage'
import { listHealth } from '@/lib/store/health'
import { getSplice } from '@/lib/store/splice-detail'
import { countSplices, listSplices } from '@/lib/store/splices'
import { storeState } from '@/lib/store/state'
import { useDatabase } from './database'
import { at, buildNetwork, csv, importText, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()

const SPAN_M = 300
/** The network's three circuits have 10 spans and three phases each. */
const ALL = 30

beforeAll(buildNetwork)

const healthOf = async (circuit: string) => {
  const found = (await listHealth(scope)).find((h) => h.circuit === circuit)
  if (!found) throw new Error(`No health of ${circuit}`)
  return circuitHealth.parse(found)
}
const shares = async (circuit: string) => {
  const { covered_span_phases: looked, conclusive_span_phases: conclusive } = (await healthOf(circuit)).coverage
  return [looked, conclusive]
}
/** 'span phase' of what is conclusive by the list of spans. */
const conclusiveOf = async (circuit: string) => {
  const spans = await coverageOfCircuit(scope, (await healthOf(circuit)).circuit_id)
  return spans.flatMap((span) => spanCoverage.parse(span).seen.filter((s) => s.conclusive_on !== null).map((s) => `${span.structure_back} ${s.phase}`))
}

/** Imports, looks and takes back. */
async function whileThere<T>(kind: 'extents' | 'readings' | 'splices', rows: Record<string, string | number>[], look: () => Promise<T>): Promise<T> {
  const { import_id: id } = await report(kind, csv(rows), { survey: 'Autumn' })
  try {
    return await look()
  } finally {
    expect(await undoImport(scope, id, 'tester')).toMatchObject({ ok: true })
  }
}

// Under 40 % of rating, over 4 m/s, or either not noted proves nothing (common practice, no published source).
// The circuits are rated 900 A.
const flight = (more: Record<string, string | number> = {}) => [{
  circuit: 'L1', surveyed_on: '2026-05-01', method: 'infrared', result: 'no exception', line_current_a: 500, wind_m_s: 2, ...more,
}]

describe('a patrol of a whole circuit', () => {
  it.each([
    ['infrared with enough load and little wind', {}, ALL],
    ['infrared at 40 % of rating and 4 m/s', { line_current_a: 360, wind_m_s: 4 }, ALL],
    ['infrared, called by another name', { method: 'IR flight' }, ALL],
    ['infrared at a fifth of rating', { line_current_a: 180 }, 0],
    ['infrared just under 40 %', { line_current_a: 359 }, 0],
    ['infrared at an unknown load', { line_current_a: '' }, 0],
    ['infrared in 4.1 m/s', { wind_m_s: 4.1 }, 0],
    ['infrared in an unknown wind', { wind_m_s: '' }, 0],
    ['by eye', { method: 'visual' }, 0],
  ])('looks at all of it; conclusively: %s', async (_name, more, conclusive) => {
    await whileThere('extents', flight(more), async () => {
      expect(await shares('L1')).toEqual([ALL, conclusive])
      expect(await conclusiveOf('L1')).toHaveLength(conclusive)
      expect(await shares('L2')).toEqual([0, 0])
    })
    expect(await shares('L1')).toEqual([0, 0])
  })

  it('of half of it says nothing of the other half', async () => {
    await whileThere('extents', flight({ structure_from: '1', structure_to: '6' }), async () => expect(await shares('L1')).toEqual([15, 15]))
  })

  // Three pixels over the barrel at least (common practice, no published source). A 50 mm barrel at 60 m and 0.68 mrad has 1.2, at 20 m 3.7.
  describe('that took pictures', () => {
    const FAR = { distance_m: 60 }
    const NEAR = { distance_m: 20 }
    const photo = (span: number, more: Record<string, string | number>) => reading(`p${span}`, 0, {
      ...at(span * SPAN_M - 150, 6), circuit: 'L1', splice_id: `P-${span}`, phase: 'A', kind: 'infrared', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '',
      electrode_span_m: '', splice_temp_c: 40, conductor_temp_c: 42, ambient_c: 20, wind_m_s: 1, line_current_a: 600, current_30min_a: 600, emissivity: 0.7,
      rain_1h: 'no', sun: 'none', ifov_mrad: 0.68, ...more,
    })
    /** What of L1 is conclusive with an extent of all of it, and pictures of its first spans. */
    async function conclusive(survey: string, ...pictures: Record<string, string | number>[]): Promise<number> {
      const splices = pictures.map((_, i) => ({ splice_id: `P-${i + 1}`, circuit: 'L1', line_distance_m: (i + 1) * SPAN_M - 150, phase: 'A', barrel_od_mm: 50 }))
      const { import_id: splicesId } = await report('splices', csv(splices))
      const { import_id: picturesId } = await report('readings', csv(pictures.map((more, i) => photo(i + 1, more))), { survey })
      const found = await whileThere('extents', flight(), async () => (await shares('L1'))[1] ?? -1)
      for (const id of [picturesId, splicesId]) expect(await undoImport(scope, id, 'tester')).toMatchObject({ ok: true })
      return found
    }

    it('proves nothing where half of them or more were too small for a failing splice to be seen', async () => {
      expect(await conclusive('Autumn', FAR)).toBe(0)
      expect(await conclusive('Autumn', FAR, NEAR)).toBe(1) // what the near picture itself shows
    })

    it('proves nothing of the span of one that was too small, where most were near enough', async () => {
      expect(await conclusive('Autumn', FAR, NEAR, NEAR)).toBe(ALL - 3)
    })

    it('proves what it says where they were near enough, or nobody knows', async () => {
      expect(await conclusive('Autumn', NEAR)).toBe(ALL)
      expect(await conclusive('Autumn', { distance_m: '' })).toBe(ALL)
    })

    it('is not judged by the pictures of another survey', async () => {
      expect(await conclusive('Another flight', FAR)).toBe(ALL)
    })
  })

  it('at too little load is shown as such, and by another limit of the policy it is conclusive', async () => {
    const lower = { infrared: { leastLoadShare: 0.2 } }
    await whileThere('extents', flight({ line_current_a: 180 }), async () => {
      expect((await healthOf('L1')).coverage).toMatchObject({ share: 1, conclusive_share: 0 })
      for (const [values, conclusive] of [[lower, ALL], [{}, 0]] as const) {
        await changePolicy(scope, { values, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'engineer' })
        await reassessNetwork(scope, async () => undefined)
        expect(await shares('L1')).toEqual([ALL, conclusive])
      }
    })
  })
})

const on = (span: number, phase: string, more: Record<string, string | number> = {}) =>
  reading(`${span}${phase}`, span * SPAN_M - 150, { phase, circuit: 'S1', ...more })
const picture = (span: number, phase: string, more: Record<string, string | number> = {}) => on(span, phase, {
  kind: 'infrared', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '', splice_temp_c: 40, conductor_temp_c: 42, ambient_c: 20,
  wind_m_s: 1, line_current_a: 600, current_30min_a: 600, emissivity: 0.7, rain_1h: 'no', sun: 'none', ...more,
})

describe('readings of single splices', () => {
  it('are conclusive where every interface was read, or a picture could have shown a failing one', async () => {
    await whileThere('readings', [
      on(1, 'A'), on(1, 'B', { side_b_uohm: '' }), on(1, 'C', { taken_at: '' }),
      picture(2, 'A'), picture(2, 'B', { line_current_a: 300, current_30min_a: 300 }), picture(2, 'C', { wind_m_s: 4.5 }),
      picture(3, 'A', { rain_1h: 'yes' }), picture(3, 'B', { line_current_a: '', current_30min_a: '' }),
      on(4, 'A', { kind: 'visual', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', findings: 'none' }),
    ], async () => {
      expect(await conclusiveOf('S1')).toEqual(['S1 A', 'S2 A'])
      expect(await shares('S1')).toEqual([8, 2]) // the undated one says nothing of when
    })
  })

  it('prove nothing of a span and phase with another splice that nobody read', async () => {
    await report('readings', csv([on(5, 'A')]), { survey: 'Autumn' })
    expect(await shares('S1')).toEqual([1, 1])
    await whileThere('splices', [{ splice_id: 'second', circuit: 'S1', line_distance_m: 4 * SPAN_M + 40, phase: 'A' }],
      async () => expect(await shares('S1')).toEqual([1, 0]))
    expect(await shares('S1')).toEqual([1, 1])
  })

  it('prove one phase of their span at most where the phase is not confirmed, and none beside a confirmed one', async () => {
    const before = await shares('S1')
    await report('splices', csv([1, 2].map((n) => ({ splice_id: `u${n}`, circuit: 'S1', line_distance_m: 5 * SPAN_M + 60 * n }))))
    const unconfirmed = [1, 2].map((n) => on(6, String(n), { ...at(5 * SPAN_M + 60 * n, 5_000), phase: '', splice_id: `u${n}` }))
    const more = async () => (await shares('S1')).map((n, i) => n - (before[i] ?? 0))
    await whileThere('readings', unconfirmed, async () => expect(await more()).toEqual([1, 1]))
    await whileThere('readings', [...unconfirmed, on(6, 'B')], async () => expect(await more()).toEqual([1, 1]))
  })
})

describe('classes over generated readings', () => {
  // A simple generator: every run is the same, and no class is left out.
  const ratios = Array.from({ length: 60 }, (_, i) => 0.55 + ((i * 7919) % 61) / 61 * 3.2)

  beforeAll(async () => {
    await report('readings', csv(ratios.map((k, i) => {
      const place = i % 3 === 0 ? { ...at(25 + 45 * i, 6), circuit: 'L1' } : { ...at(25 + 45 * i, 5_000), circuit: 'S1' }
      return reading(`k${i}`, 0, { ...place, phase: 'ABC'[i % 3] ?? 'A', gnss_accuracy_m: 1, side_a_uohm: 20 * k, side_b_uohm: 14, conductor_uohm: 20 })
    })), { survey: 'Winter' })
    await report('splices', csv([1, 2, 3].map((i) => ({ splice_id: `unread ${i}`, circuit: 'L2', line_distance_m: 500 * i, phase: 'B' }))))
  })

  it('are counted each splice once, with the worst by class, then ratio', async () => {
    const splices = (await listSplices(scope, { limit: 500 })).items
    expect(new Set(splices.map((s) => s.class))).toEqual(new Set(CONDITION_CLASSES))
    for (const health of await listHealth(scope)) {
      const own = splices.filter((s) => s.circuit === health.circuit)
      for (const c of CONDITION_CLASSES) expect(health.counts[c]).toBe(own.filter((s) => s.class === c).length)
      expect(health.splice_count).toBe(own.length)
      const worstClass = [...CONDITION_CLASSES].reverse().find((c) => c !== 'unknown' && health.counts[c] > 0)
      const worst = own.filter((s) => s.class === worstClass).sort((a, b) => (b.ratio ?? 0) - (a.ratio ?? 0) || a.id - b.id)[0]
      expect(health.worst_splice?.id).toBe(worst?.id)
    }
  })

  it('are counted from the roll-ups as they are in the list, by class, circuit and voltage', async () => {
    const all = (await listSplices(scope, { limit: 500 })).items
    const [one, ...others] = [...new Set(all.map((splice) => splice.circuit_id))]
    const ofClass = (kept: readonly (typeof all)[number][]) => Object.fromEntries(CONDITION_CLASSES.map((name) => [name, kept.filter((splice) => splice.class === name).length]))
    expect(others.length).toBeGreaterThan(0)
    expect(await countSplices(scope)).toEqual(ofClass(all))
    for (const classes of [['urgent', 'critical'], ['sound'], []] satisfies (typeof CONDITION_CLASSES)[number][][]) {
      expect(await countSplices(scope, { classes })).toEqual(ofClass(all.filter((splice) => classes.some((name) => name === splice.class))))
      expect(await countSplices(scope, { classes, circuitIds: [one ?? 0] })).toEqual(ofClass(all.filter((splice) => splice.circuit_id === one && classes.some((name) => name === splice.class))))
    }
    expect(await countSplices(scope, { circuitIds: [] })).toEqual(ofClass([]))
    expect(await countSplices(scope, { voltagesKv: [230] })).toEqual(ofClass(all))
    expect(await countSplices(scope, { voltagesKv: [69] })).toEqual(ofClass([]))
    expect(await countSplices(scope, {}, [-180, -90, 180, 90])).toEqual(ofClass(all))
  })

  it('rank the circuits: more critical first, then more urgent, never by a mean', async () => {
    const keys = (await listHealth(scope)).map(({ counts: c }) => [c.critical, c.urgent, c.degraded])
    expect(keys[0]?.[0]).toBeGreaterThan(0)
    expect(keys).toEqual([...keys].sort((a, b) => a.map((n, i) => (b[i] ?? 0) - n).find((n) => n !== 0) ?? 0))
    expect((await listCircuits(scope)).map((c) => c.name)).toEqual((await listHealth(scope)).map((h) => h.circuit))
  })

  it('count what is past the response time of its class, from when it was shown', async () => {
    const { critical, urgent, degraded } = (await healthOf('S1')).counts
    expect(Math.min(critical, urgent, degraded)).toBeGreaterThan(0)
    const none = { critical: 0, urgent: 0, degraded: 0 }
    expect((await healthOf('S1')).past_response).toEqual(none)
    const atOnce = 1e-9
    for (const [response, past] of [
      [{ criticalHours: atOnce }, { ...none, critical }], [{ urgentDays: atOnce }, { ...none, urgent }], [{ degradedDays: atOnce }, { ...none, degraded }],
    ] as const) {
      await changePolicy(scope, { values: { response }, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'engineer' })
      expect((await healthOf('S1')).past_response).toEqual(past)
    }
  })
})

const DAY_MS = 86_400_000
const daysAgo = (days: number): string => new Date(Date.now() - days * DAY_MS).toISOString()
const dayAgo = (days: number): string => daysAgo(days).slice(0, 10)

describe('a reading that lay before it was read in', () => {
  const onL2 = (span: number, days: number, sideAUohm: number) => reading(`L2-${span}`, 0, {
    ...at(span * SPAN_M - 150, -6), circuit: 'L2', gnss_accuracy_m: 1, taken_at: daysAgo(days), side_a_uohm: sideAUohm, side_b_uohm: 14, conductor_uohm: 20,
  })

  it('is counted apart where that was longer than its class may stand, and no clock counts it', async () => {
    await changePolicy(scope, { values: {}, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'engineer' })
    await report('readings', csv([
      onL2(1, 40, 44), onL2(2, 10, 44), onL2(3, 10, 66), onL2(4, 2, 66), onL2(5, 40, 32), onL2(6, 370.5, 32), onL2(7, 400, 12),
    ]), { survey: 'Late' })
    const { counts, read_in_late: late, past_response: past } = await healthOf('L2')
    expect(counts).toMatchObject({ urgent: 2, critical: 2, degraded: 2, sound: 1 })
    expect(late).toEqual({ urgent: 1, critical: 1, degraded: 1, longest_days: 370 })
    expect(past).toEqual({ urgent: 0, critical: 0, degraded: 0 })
  })
})

describe('the age of conclusive looks', () => {
  const looks = async () => {
    const { conclusive_span_phases: conclusive, conclusive_oldest_on: oldest, conclusive_newest_on: newest, conclusive_stale_span_phases: stale } = (await healthOf('L3')).coverage
    return { conclusive, oldest, newest, stale }
  }
  const patrol = (days: number, more: Record<string, string | number> = {}) => ({ ...flight()[0], circuit: 'L3', surveyed_on: dayAgo(days), ...more })

  beforeAll(async () => {
    await importText('lines', linesFile([lineFeature('L3', 9_000)]))
    await importText('structures', csv(Array.from({ length: 11 }, (_, i) => ({ circuit: 'L3', structure: `T${i + 1}`, ...at(i * SPAN_M, 9_000) }))))
  })

  // Six years for what nobody knows a splice in, two for a watch: common practice, no source.
  it('is said beside the share, and what is older than the interval of its class is counted', async () => {
    const patrols = [patrol(7 * 365.25, { structure_from: 'T1', structure_to: 'T6' }), patrol(300, { structure_from: 'T6', structure_to: 'T11' })]
    await whileThere('extents', patrols, async () => {
      expect(await looks()).toEqual({ conclusive: ALL, oldest: dayAgo(7 * 365.25), newest: dayAgo(300), stale: 15 })
      expect((await healthOf('L3')).coverage.conclusive_stale_share).toBeCloseTo(0.5, 12)
    })
    expect(await looks()).toEqual({ conclusive: 0, oldest: null, newest: null, stale: 0 })
  })

  // Infrared sees the mean of a splice: one bad side of two may pass it.
  it('tells apart where every interface was read, for one bad side may pass a picture', async () => {
    const read = async () => (await healthOf('L3')).coverage.every_interface_span_phases
    const both = reading('both', 0, { ...at(150, 9_000), taken_at: daysAgo(100), phase: 'A', circuit: 'L3', side_a_uohm: 12, side_b_uohm: 14, conductor_uohm: 20 })
    await whileThere('extents', [patrol(300)], async () => {
      await whileThere('readings', [both], async () => expect([(await looks()).conclusive, await read()]).toEqual([ALL, 1]))
      await whileThere('readings', [{ ...both, side_b_uohm: '' }], async () => expect(await read()).toBe(0))
      await whileThere('readings', [{ ...both, taken_at: daysAgo(7 * 365.25) }], async () => expect(await read()).toBe(0))
    })
  })

  it('follows the class of what is known there', async () => {
    const onL3 = (phase: string, years: number, sideAUohm: number) => reading(phase, 0, {
      ...at(150, 9_000), taken_at: daysAgo(years * 365.25), phase, side_a_uohm: sideAUohm, side_b_uohm: 14, conductor_uohm: 20,
    })
    await whileThere('readings', [onL3('A', 3, 22), onL3('B', 3, 12), onL3('C', 1, 22)], async () => {
      expect(await looks()).toMatchObject({ conclusive: 3, stale: 1 })
      const spans = await coverageOfCircuit(scope, (await healthOf('L3')).circuit_id)
      const years = spans.flatMap(({ seen }) => seen.map(({ conclusive_on: on, conclusive_until: until }) => (Date.parse(until ?? '') - Date.parse(on ?? '')) / DAY_MS / 365.25))
      expect(years.map(Math.round)).toEqual([2, 6, 2])
    })
  })

  it('of a sound splice is told on its row, and counted beside the sound ones, once it was to be measured again', async () => {
    const onL3 = (phase: string, years: number) => reading(`${phase}-sound`, 0, {
      ...at(150, 9_000), taken_at: daysAgo(years * 365.25), phase, side_a_uohm: 11, side_b_uohm: 10.5, conductor_uohm: 20,
    })
    const standing = async () => {
      const { id, counts, sound_past_re_measure: past } = (await listCircuits(scope)).find(({ name }) => name === 'L3')!
      return { id, sound: counts.sound, past }
    }
    const before = await storeState(scope)
    await whileThere('readings', [onL3('A', 7), onL3('B', 1), onL3('C', 1)], async () => {
      const { id, ...now } = await standing()
      expect(now).toEqual({ sound: 3, past: 1 })
      const { items } = await listSplices(scope, { filter: { circuitIds: [id] } })
      // Six years after each at the latest: common practice, no source.
      expect(Object.fromEntries(items.map((s) => [s.phase, classNow(s, Date.now())]))).toEqual({ A: 'was sound', B: 'sound', C: 'sound' })
      expect((await storeState(scope)).sound_past_re_measure).toBe(before.sound_past_re_measure + 1)
      // The legend counts what the filter lets through: of the roll-up for a circuit, of the splices for a phase of it.
      const pastIn = async (filter: SpliceFilter) => (await listSplices(scope, { filter, limit: 1 })).sound_past_re_measure
      expect(await pastIn({})).toBe(before.sound_past_re_measure + 1)
      expect(await pastIn({ circuitIds: [id], classes: ['critical'] })).toBe(1)
      expect(await pastIn({ circuitIds: [id], phases: ['A'] })).toBe(1)
      expect(await pastIn({ circuitIds: [id], phases: ['B'] })).toBe(0)
      const old = await getSplice(scope, items.find(({ phase }) => phase === 'A')?.id ?? 0)
      expect(old).toMatchObject({ class: 'sound', assessment_text: { headline: expect.stringMatching(/^Was electrically sound, to be measured again by /) } })
      expect(classNow(old!, Date.now())).toBe('was sound')
    })
    expect(await standing()).toMatchObject({ sound: 0, past: 0 })
    expect((await storeState(scope)).sound_past_re_measure).toBe(before.sound_past_re_measure)
  })

  it('of a patrol does not count where a splice was put in after it', async () => {
    const splice = (more: Record<string, string | number>) => ({ circuit: 'L3', line_distance_m: 450, ...more })
    await report('extents', csv([patrol(100)]), { survey: 'Before' })
    const conclusiveWith = (...rows: Record<string, string | number>[]) => whileThere('splices', rows, async () => (await looks()).conclusive)
    expect(await conclusiveWith(splice({ splice_id: 'older', phase: 'A', installed_on: dayAgo(101) }))).toBe(ALL)
    expect(await conclusiveWith(splice({ splice_id: 'newer', phase: 'A', installed_on: dayAgo(99) }))).toBe(ALL - 1)
    expect(await conclusiveWith(
      splice({ splice_id: 'before', phase: 'A', removed_on: dayAgo(99) }), splice({ splice_id: 'after', phase: 'A', successor_of: 'before' }),
    )).toBe(ALL - 1)
    expect(await conclusiveWith(splice({ splice_id: 'of no phase', installed_on: dayAgo(99) }))).toBe(ALL - 3)
  })
})
