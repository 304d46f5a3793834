import jstat from 'jstat'
import { describe, expect, it } from 'vitest'
import { assess, defaultPolicy, type Evidence } from '@/lib/condition'
import { workingOf, type WorkingStep } from '@/lib/condition/working'
import { DRAKE, infrared, judge, NOW_MS, resistance, YEAR_MS } from './evidence'

const stepsOf = (evidence: Evidence[]): WorkingStep[] =>
  workingOf({ assessment: judge(evidence), facts: DRAKE, evidence, policy: defaultPolicy, asOfMs: NOW_MS })

const phi = (z: number) => jstat.normal.cdf(z, 0, 1)

/** Each formula worked out again from the printed inputs alone, as an engineer would with a calculator. */
const BY_HAND: Record<string, (v: Record<string, number>) => number> = {
  'k = R / Rc': ({ R = 0, Rc = 0 }) => R / Rc,
  'u = √((uR/R)² + (uc/Rc)² − 2 ρ (uR/R)(uc/Rc))': ({ R = 0, Rc = 0, uR = 0, uc = 0, ρ = 0 }) =>
    Math.sqrt((uR / R) ** 2 + (uc / Rc) ** 2 - 2 * ρ * (uR / R) * (uc / Rc)),
  'P = Φ((R − t Rc) / √(uR² + t² uc² − 2 t ρ uR uc))': ({ R = 0, Rc = 0, uR = 0, uc = 0, ρ = 0, t = 0 }) =>
    phi((R - t * Rc) / Math.sqrt(uR ** 2 + t ** 2 * uc ** 2 - 2 * t * ρ * uR * uc)),
  'x = ln k + g y': ({ k = 0, g = 0, y = 0 }) => Math.log(k) + g * y,
  'ux = √(u² + v y)': ({ u = 0, v = 0, y = 0 }) => Math.sqrt(u * u + v * y),
  'm = (x0/s0² + x/ux²) / (1/s0² + 1/ux²)': ({ x0 = 0, s0 = 0, x = 0, ux = 0 }) => (x0 / s0 ** 2 + x / ux ** 2) / (1 / s0 ** 2 + 1 / ux ** 2),
  's = 1 / √(1/s0² + 1/ux²)': ({ s0 = 0, ux = 0 }) => 1 / Math.sqrt(1 / s0 ** 2 + 1 / ux ** 2),
  'xi = x + ln kb − ln ka': ({ x = 0, kb = 0, ka = 0 }) => x + Math.log(kb) - Math.log(ka),
  'm = (x0/s0² + x/ux² + xi/ui²) / (1/s0² + 1/ux² + 1/ui²)': ({ x0 = 0, s0 = 0, x = 0, ux = 0, xi = 0, ui = 0 }) =>
    (x0 / s0 ** 2 + x / ux ** 2 + xi / ui ** 2) / (1 / s0 ** 2 + 1 / ux ** 2 + 1 / ui ** 2),
  's = 1 / √(1/s0² + 1/ux² + 1/ui²)': ({ s0 = 0, ux = 0, ui = 0 }) => 1 / Math.sqrt(1 / s0 ** 2 + 1 / ux ** 2 + 1 / ui ** 2),
  'm = (x0/s0² + xi/ui²) / (1/s0² + 1/ui²)': ({ x0 = 0, s0 = 0, xi = 0, ui = 0 }) => (x0 / s0 ** 2 + xi / ui ** 2) / (1 / s0 ** 2 + 1 / ui ** 2),
  's = 1 / √(1/s0² + 1/ui²)': ({ s0 = 0, ui = 0 }) => 1 / Math.sqrt(1 / s0 ** 2 + 1 / ui ** 2),
  'P = 1 − Φ((ln t − m) / s), and with a sign the odds over 1.3 times its weight': ({ t = 0, m = 0, s = 0 }) => phi(-(Math.log(t) - m) / s),
  'qr = 17.8 D ε (((Ts + 273)/100)⁴ − ((Ta + 273)/100)⁴)': ({ D = 0, ε = 0, Ts = 0, Ta = 0 }) =>
    17.8 * D * ε * (((Ts + 273) / 100) ** 4 - ((Ta + 273) / 100) ** 4),
  'qs = α Q D': ({ α = 0, Q = 0, D = 0 }) => α * Q * D,
  'k = (qc + qr − qs) / (I² R)': ({ qc = 0, qr = 0, qs = 0, I = 0, R = 0 }) => (qc + qr - qs) / (I * I * R),
  'd = 0.1 (kw − kb) / (εw − εb)': ({ kw = 0, kb = 0, εw = 0, εb = 0 }) => (0.1 * (kw - kb)) / (εw - εb),
  // No band is noted in these pictures: the T⁴ law.
  'εc S(Tc) + (1 − εc) S(Trc) = ε S(T) + (1 − ε) S(Tr)': ({ Tc = 0, εc = 0, Trc = 0, ε = 0, Tr = 0 }) => {
    const s = (celsius: number) => (celsius + 273.15) ** 4
    return ((εc * s(Tc) + (1 - εc) * s(Trc) - (1 - ε) * s(Tr)) / ε) ** 0.25 - 273.15
  },
  'k′ = k f': ({ k = 0, f = 0 }) => k * f,
  'h = |1 − 1 / f|': ({ f = 0 }) => Math.abs(1 - 1 / f),
  'X = (ln ka − ln kb)² / (ua² + ub²)': ({ ka = 0, kb = 0, ua = 0, ub = 0 }) => Math.log(ka / kb) ** 2 / (ua ** 2 + ub ** 2),
  'I = √((qc + qr − qs) / (k R))': ({ qc = 0, qr = 0, qs = 0, k = 0, R = 0 }) => Math.sqrt((qc + qr - qs) / (k * R)),
  'L = min(n I, S)': ({ n = 0, I = 0, S = 0 }) => Math.min(n * I, S),
  't = c + (ln e − l) / b': ({ c = 0, e = 0, l = 0, b = 0 }) => c + (Math.log(e) - l) / b,
}

const year = (age: number, sideAUohm: number) => resistance({ takenAtMs: NOW_MS - age * YEAR_MS, survey: `S${age}`, sideAUohm })
const EVERYTHING: Evidence[] = [year(6, 12), year(4, 13), year(2, 14.5), year(1, 17), infrared({ spliceTempC: 70, sun: 'direct', emissivity: 0.95, reflectedC: -10 })]

describe('the working', () => {
  it.each([['resistance', EVERYTHING.slice(0, 4)], ['both', EVERYTHING], ['infrared', [infrared()]]] as const)(
    'of %s comes out again from its own inputs', (_name, evidence) => {
      const steps = stepsOf([...evidence])
      expect(steps.length).toBeGreaterThan(4)
      for (const { formula, inputs, result, title } of steps) {
        const work = BY_HAND[formula]
        if (work) expect(work(Object.fromEntries(inputs.map(({ symbol, value }) => [symbol, value]))), title).toBeCloseTo(result.value, 6)
      }
    })

  const joined = (evidence: Evidence[]) => {
    const steps = stepsOf(evidence)
    for (const { formula, inputs, result, title } of steps) {
      const work = BY_HAND[formula]
      if (work) expect(work(Object.fromEntries(inputs.map(({ symbol, value }) => [symbol, value]))), title).toBeCloseTo(result.value, 6)
    }
    return Object.fromEntries(steps.map(({ title, formula }) => [title, formula]))
  }

  it('joins infrared to resistance side by side, with what is believed before measuring', () => {
    const steps = joined([resistance({ sideAUohm: 20, sideBUohm: 22 }), infrared({ spliceTempC: 45 })])
    expect(steps).toMatchObject({
      'Infrared: growth since the picture': 'x = ln k + g y', 'Side B: what infrared says of it': 'xi = x + ln kb − ln ka',
      'Side B: what is believed': 'm = (x0/s0² + x/ux² + xi/ui²) / (1/s0² + 1/ux² + 1/ui²)', 'Side B: how surely': 's = 1 / √(1/s0² + 1/ux² + 1/ui²)',
    })
  })

  it('follows infrared alone where both cannot be right, and of a splice with a side unread', () => {
    const contradicted = joined([resistance({}), infrared({ spliceTempC: 75 })])
    expect(contradicted['Side A: what is believed']).toBe('m = (x0/s0² + xi/ui²) / (1/s0² + 1/ui²)')
    const oneSide = joined([resistance({ sideAUohm: 17, sideBUohm: undefined }), infrared({ spliceTempC: 70 })])
    expect(oneSide['Side A: what is believed']).toBe('m = (x0/s0² + x/ux²) / (1/s0² + 1/ux²)')
    expect(oneSide['Splice by infrared: what is believed']).toBe('m = (x0/s0² + xi/ui²) / (1/s0² + 1/ui²)')
    expect(oneSide['Side A: what infrared says of it']).toBeUndefined()
  })

  it('knows every formula that can be worked out in one line', () => {
    const formulas = new Set(stepsOf(EVERYTHING).map(({ formula }) => formula))
    const solved = [...formulas].filter((formula) => BY_HAND[formula] === undefined)
    expect(solved.filter((formula) => !/greatest|such that|sum of|Σ|= ln e/.test(formula))).toEqual([])
  })

  it('says how much a ratio by infrared reads low for the heat along the line, or counts it where the policy says so', () => {
    const evidence = [infrared({ spliceTempC: 70 })]
    const without = stepsOf(evidence).find(({ formula }) => formula === 'h = |1 − 1 / f|')
    expect(without?.title).toBe('Infrared: heat along the line is left out; the ratio may read low by so much')
    expect(without?.result.value).toBeGreaterThan(0.05)
    const policy = { ...defaultPolicy, radiometry: { ...defaultPolicy.radiometry, heatAlongLine: true } }
    const judged = (by: typeof policy) => assess({ facts: DRAKE, evidence, policy: by, asOfMs: NOW_MS })
    const [before, after] = [judged(defaultPolicy), judged(policy)].map(({ fusion }) => fusion?.sources[0]?.k ?? NaN)
    expect(1 - (before ?? NaN) / (after ?? NaN)).toBeCloseTo(without?.result.value ?? NaN, 9)
    const counted = workingOf({ assessment: judged(policy), facts: DRAKE, evidence, policy, asOfMs: NOW_MS }).find(({ formula }) => formula === 'k′ = k f')
    expect(counted?.result.value).toBeCloseTo(after ?? NaN, 9)
  })

  it('follows the earliest passing to the edge', () => {
    for (const { formula, inputs, result } of stepsOf(EVERYTHING.slice(0, 4))) {
      if (!formula.includes('= ln e')) continue
      const { c = 0, l = 0, b = 0, q = 0, ul = 0, un = 0, ub = 0, e = 0 } = Object.fromEntries(inputs.map(({ symbol, value }) => [symbol, value]))
      const dt = result.value - c
      const upper = l + b * dt + q * Math.sqrt(ul * ul + un * un + (ub * dt) ** 2)
      if (result.value > 5.001) expect(upper).toBeCloseTo(Math.log(e), 6)
      else expect(upper).toBeGreaterThanOrEqual(Math.log(e) - 1e-9)
    }
  })

  it('begins with the sides and names a source for every step', () => {
    const steps = stepsOf(EVERYTHING)
    expect(steps.map(({ title }) => title)).toContain('Limit: current of the line')
    expect(steps[0]?.title).toBe('Side A: ratio')
    expect(steps.map(({ title }) => title)).toContain('Infrared: wind that the conductor shows')
    for (const { source, result } of steps) {
      expect(source.length).toBeGreaterThan(10)
      expect(Number.isFinite(result.value)).toBe(true)
    }
  })
})
