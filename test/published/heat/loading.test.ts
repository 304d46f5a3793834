import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { currentLimit } from '@/lib/condition/current-limit'
import { coarsestIfovMrad, differenceErrorK, flightVerdict, type Camera, type SectionToFly } from '@/lib/condition/loading/flight'
import { heatedWith } from '@/lib/condition/loading/line-joint'
import { allowedLineA, limitAgainstAmbient, limitInWeather } from '@/lib/condition/loading/line-limit'
import { conductorTemperature, jointTemperatures } from '@/lib/condition/loading/line-temperatures'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import { expectPrinted } from '../condition/printed'
import checks from './joint_model.json'
import misc from './misc.json'

/** Drake with a barrel of 47.6 mm. Status of every figure: computed with an independent reference, but where said otherwise. */
const drake = (surface: number) => ({
  conductor: {
    diameterM: 0.02814, emissivity: surface, absorptivity: surface,
    resistance: { lowC: 25, lowOhmPerM: 7.283e-5, highC: 75, highOhmPerM: 8.688e-5 },
  },
  barrel: { diameterM: 0.0476, emissivity: surface, absorptivity: surface }, barrelTypical: false,
})
const SECTION = { conductorCode: 'Drake', subconductors: 1, ratingA: null, maxOperatingC: 75, elevationM: null }
const weather = ratingWeatherOf(defaultPolicy)
const joints = checks.table.map(({ k }) => heatedWith(drake(0.5), 1, Number(k), Number(k)))

describe('the splices of a line in rating weather at the rating of their conductor, 906.7756 A', () => {
  it('have the temperatures of the table, and the conductor 75 °C', () => {
    const found = jointTemperatures(joints, Number(checks.I_rating_75C), weather)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    checks.table.forEach(({ T_joint_C: printed }, i) => expectPrinted(found.value[i]?.believedC ?? NaN, printed))
    const conductor = conductorTemperature(drake(0.5), Number(checks.I_rating_75C), weather)
    expect(conductor.ok && conductor.value).toBeCloseTo(75, 3)
  })

  it('show at the upper bound of k what a splice of that k has', () => {
    const found = jointTemperatures([heatedWith(drake(0.5), 1, 1.3, 2)], Number(checks.I_rating_75C), weather)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    expectPrinted(found.value[0]?.believedC ?? NaN, '74.2367')
    expectPrinted(found.value[0]?.upperC ?? NaN, '97.8956')
  })

  it('carry in a bundle of two at twice the line current what one alone carries at once', () => {
    const pair = jointTemperatures(joints.map(({ bodies, k }) => heatedWith(bodies, 2, k, k)), 2 * Number(checks.I_rating_75C), weather)
    const one = jointTemperatures(joints, Number(checks.I_rating_75C), weather)
    expect(pair).toEqual(one)
  })
})

describe('what the splices of a line allow at 93 °C', () => {
  it.each([[25, 'I_lim_93C_A'], [40, 'I_lim_93C_40Camb_A']] as const)('in air of %s °C is the table, uncapped', (ambientC, column) => {
    const allowed = allowedLineA(joints, { ...weather, ambientC }, defaultPolicy)
    checks.table.forEach((row, i) => expectPrinted(allowed[i] ?? NaN, row[column]))
  })

  it('is, at rating weather, the one figure that operations gets, and otherwise no rating', () => {
    const [worst] = joints.slice(-1)
    if (!worst) throw new Error('a joint')
    const at = (ambientC: number) => limitInWeather(worst, SECTION, 230, { ...weather, ambientC }, defaultPolicy)
    expect(at(25)).toEqual(currentLimit({ bodies: worst.bodies, subconductors: 1, voltageKv: 230 }, worst.k, defaultPolicy))
    expect(at(25)).toMatchObject({ ok: true, value: { use: 'for-operations' } })
    expect(at(20)).toMatchObject({ ok: true, value: { use: 'not-a-rating' } })
  })

  it('falls as the air warms: through the table at 25 and 40 °C', () => {
    const [worst] = joints.slice(-1)
    if (!worst) throw new Error('a joint')
    const found = limitAgainstAmbient(worst, SECTION, 230, weather, -20, 45, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    const at = (ambientC: number) => found.value.find((one) => one.ambientC === ambientC)?.limit.spliceLineA ?? NaN
    expectPrinted(at(25), '713.902')
    expectPrinted(at(40), '621.072')
  })
})

const section = (ratingA: number | null = 900): SectionToFly => ({ bodies: [drake(0.7)], subconductors: 1, ratingA })
/** Noise left out: the published differences know none. */
const CAMERA: Camera = { netdK: 0, ifovMrad: 0.34 }
const NIGHT = { ambientC: 20, windMS: 1, sky: 'none' } as const
const FULL_LOAD_A = 906.7756

describe('whether a splice of k 2 would show to a flight by night in 1 m/s', () => {
  const rows = misc.ir_sensitivity.rows.filter(({ V }) => Number(V) === 1)
  it.each(rows)('at $load of full load it shows $dT_k2 K, against the 3 K it takes', (row) => {
    const found = flightVerdict(section(), Number(row.load) * FULL_LOAD_A, NIGHT, CAMERA, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    expectPrinted(found.value.shownK, row.dT_k2)
    expectPrinted(found.value.conductorRiseK, row.rise_cond)
    expect(found.value.neededK).toBe(3)
    expect(found.value.wouldShow).toBe(Number(row.dT_k2) >= 3)
    const needed = found.value.neededLineA ?? NaN
    expect(needed).toBeGreaterThan(0.4 * FULL_LOAD_A)
    expect(needed).toBeLessThan(0.6 * FULL_LOAD_A)
  })

  it('needs more load of a noisier camera, and of a bundle as many times the load as it has conductors', () => {
    const needed = (of: SectionToFly, netdK: number) => {
      const found = flightVerdict(of, 100, NIGHT, { ...CAMERA, netdK }, defaultPolicy)
      return found.ok ? found.value.neededLineA ?? NaN : NaN
    }
    expect(differenceErrorK({ netdK: 0.5 }, defaultPolicy)).toBeCloseTo(Math.sqrt(1.5), 12)
    expect(needed(section(), 0.5)).toBeGreaterThan(needed(section(), 0))
    expect(needed({ ...section(), subconductors: 2 }, 0) / needed(section(), 0)).toBeCloseTo(2, 2)
  })
})

describe('what stands against a flight whatever the load', () => {
  const obstacles = (lineA: number, forecast: Parameters<typeof flightVerdict>[2]) => {
    const found = flightVerdict(section(), lineA, forecast, CAMERA, defaultPolicy)
    return found.ok ? found.value : null
  }

  // Over 4 m/s a picture is inconclusive (the engine's own rule for pictures that were taken).
  it('is wind over 4 m/s: no load is named that would do', () => {
    expect(obstacles(1500, { ...NIGHT, windMS: 4.1 })).toMatchObject({ wouldShow: false, obstacles: ['wind'], neededLineA: null, neededInShadeLineA: null })
  })

  it('is direct sun while the conductor is less than 15 K over the air; in the shade less load does', () => {
    const found = obstacles(200, { ambientC: 20, windMS: 3, sky: 'direct' })
    expect(found?.obstacles).toContain('sun')
    expect(found?.conductorRiseK).toBeLessThan(15)
    expect(found?.neededInShadeLineA).toBeLessThan(found?.neededLineA ?? 0)
  })
})

describe('what the sun adds to a flight', () => {
  const verdict = (lineA: number, forecast: Parameters<typeof flightVerdict>[2]) => {
    const found = flightVerdict(section(), lineA, forecast, CAMERA, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    return found.value
  }
  const RATING_WIND = { ambientC: 20, windMS: 0.61 } as const

  // Without load the sun alone makes a good splice some 2.4 K hotter than its conductor (computed with an independent reference): none of it is a defect.
  it('is no signal: without load a bad splice shows nothing of its own, and more is needed than by night', () => {
    const sunny = verdict(0, { ...RATING_WIND, sky: 'direct' })
    expect(sunny.conductorRiseK).toBeGreaterThan(9)
    expect(Math.abs(sunny.shownK)).toBeLessThan(0.05)
    // Three errors: 1 K of the difference, and the sun's 30 % of about 2.4 K.
    expect(sunny.neededK).toBeGreaterThan(3.4)
    expect(sunny.neededK).toBeLessThan(4)
  })

  it.each([300, 500, 700, 900])('makes no flight look better at %s A', (lineA) => {
    const skies = (['none', 'diffuse', 'direct'] as const).map((sky) => verdict(lineA, { ...RATING_WIND, sky }))
    for (const [i, brighter] of skies.slice(1).entries()) {
      const darker = skies[i]
      if (!darker) throw new Error('a darker sky')
      expect(brighter.shownK).toBeLessThanOrEqual(darker.shownK + 1e-6)
      expect(brighter.neededK).toBeGreaterThan(darker.neededK)
      expect(brighter.neededLineA ?? Infinity).toBeGreaterThanOrEqual(darker.neededLineA ?? Infinity)
    }
  })
})

describe('how near a lens has to be', () => {
  // Three pixels over 47.6 mm: 79.3, 46.7, 23.3, 14.4 and 11.7 m (computed).
  it.each([[0.2, '79.3'], [0.34, '46.7'], [0.68, '23.3'], [1.1, '14.4'], [1.36, '11.7']] as const)('%s mrad: %s m', (ifovMrad, printed) => {
    const found = flightVerdict(section(), 500, NIGHT, { netdK: 0, ifovMrad }, defaultPolicy)
    expectPrinted(Number((found.ok ? found.value.greatestDistanceM : NaN).toFixed(1)), printed)
  })

  // Drake is 1.108 in over its strands (ASTM B232): three pixels of 0.68 mrad over 28.14 mm reach 13.8 m, over its barrel 23.3 m (computed).
  it('and nearer still for the conductor, which is thinner than its splice', () => {
    const found = flightVerdict(section(), 500, NIGHT, { netdK: 0, ifovMrad: 0.68 }, defaultPolicy)
    expectPrinted(Number((found.ok ? found.value.conductorDistanceM : NaN).toFixed(1)), '13.8')
  })

  it('and which lens does from 46.7 m', () => {
    expect(coarsestIfovMrad(47.6, 46.7, defaultPolicy)).toBeCloseTo(0.34, 2)
  })
})
