import { describe, expect, it } from 'vitest'
import { FINDINGS } from '@/lib/condition'
import { actionCodes, infrared, judge, NOW_MS, reasonCodes, resistance, visual, YEAR_MS } from './evidence'

describe('what the eye finds', () => {
  const marginal = () => resistance({ sideAUohm: 27, sideBUohm: 15 })
  const over = (findings: Parameters<typeof visual>[0]) => judge([marginal(), visual(findings)]).sides[0]?.pOver.degraded ?? NaN

  it('makes a poor interface likelier by its odds', () => {
    const before = judge([marginal()]).sides[0]?.pOver.degraded ?? NaN
    const odds = (p: number) => p / (1 - p)
    expect(odds(over(['discolouration'])) / odds(before)).toBeCloseTo(3, 8)
    expect(odds(over(['cracks'])) / odds(before)).toBeCloseTo(5, 8)
    expect(odds(over(['bent-barrel'])) / odds(before)).toBeCloseTo(2, 8)
    expect(odds(over(['none'])) / odds(before)).toBeCloseTo(0.9, 8)
  })

  it('does not count several signs of one overheated barrel twice', () => {
    expect(over(['discolouration', 'bulging', 'cracks'])).toBeCloseTo(over(['cracks']), 12)
  })

  it('does not go away by a later look that found nothing', () => {
    const assessment = judge([marginal(), visual(['bulging'], { takenAtMs: NOW_MS - YEAR_MS }), visual(['none'])])
    expect(assessment.sides[0]?.pOver.degraded).toBeCloseTo(over(['bulging']), 12)
  })

  it('gives no class without a ratio', () => {
    expect(judge([visual(['discolouration', 'bulging'])]).class).toBe('unknown')
  })

  it('broken strands are urgent whatever the ratio, and no milder than the ratio', () => {
    expect(judge([resistance(), visual(['broken-strands'])])).toMatchObject({ class: 'urgent', confidence: 'medium' })
    expect(judge([visual(['broken-strands'])])).toMatchObject({ class: 'urgent', confidence: 'medium' })
    expect(judge([resistance({ sideAUohm: 90 }), visual(['broken-strands'])]).class).toBe('critical')
  })

  const MECHANICAL = ['rust-bleed', 'slip', 'bow', 'bird-caging', 'gap', 'radiograph'] as const
  it.each(MECHANICAL)('%s goes to engineering and never moves the ratio', (finding) => {
    const assessment = judge([marginal(), visual([finding])])
    expect(assessment.mechanicalFindings).toEqual([finding])
    expect(assessment.flags).toContain('mechanical-finding')
    expect(actionCodes(assessment)).toContain('engineer-on-mechanical-state')
    expect(assessment.sides[0]?.pOver).toEqual(judge([marginal()]).sides[0]?.pOver)
  })

  it('takes every finding there is', () => {
    expect(judge([visual([...FINDINGS])]).class).toBe('urgent')
  })
})

describe('infrared', () => {
  it('is shown with its differences, and makes no class where its conductor is not in the table', () => {
    const assessment = judge([infrared()], { conductorCode: undefined })
    expect(assessment.class).toBe('unknown')
    expect(assessment.infrared[0]).toMatchObject({ overConductorK: -2, overAmbientK: 20, inconclusive: [], hot: false, k: undefined })
    expect(reasonCodes(assessment)).toContain('nothing-measured')
  })

  it.each([
    ['not-detectable', { lineCurrentA: 300, current30minA: 300 }],
    ['conductor-hotter-than-current', { lineCurrentA: 300, current30minA: 300 }],
    ['conductor-colder-than-current', { conductorTempC: 20.5 }],
    ['wind', { windMS: 4.1 }],
    ['strong-wind', { windMS: 8.1 }],
    ['sun', { sun: 'direct', conductorTempC: 30 }],
    ['pixels', { distanceM: 50 }],
    ['new-metal', { afterRepair: true }],
    ['rain', { rain1h: true }],
    ['angle', { viewAngleDeg: 61 }],
    ['load-changed', { lineCurrentA: 600, current30minA: 450 }],
    ['current-missing', { lineCurrentA: undefined, current30minA: undefined }],
    ['conductor-temperature-and-wind-missing', { conductorTempC: undefined, windMS: undefined }],
  ] as const)('proves nothing of health: %s', (cause, fields) => {
    const assessment = judge([infrared(fields)])
    expect(assessment.infrared[0]?.inconclusive).toContain(cause)
    expect(assessment.flags).toContain('infrared-inconclusive')
  })

  // Where the conductor is not in the table no heat balance can be drawn, and the fixed rules of load stand.
  it.each([
    ['low-load', { lineCurrentA: 300, current30minA: 300 }], ['low-conductor-rise', { conductorTempC: 22 }],
  ] as const)('proves nothing of health by the fixed rules: %s', (cause, fields) => {
    expect(judge([infrared(fields)], { conductorCode: undefined }).infrared[0]?.inconclusive).toContain(cause)
  })

  it('proves what it can where no rule applies: sun with enough rise, 40 % of load, 4 m/s', () => {
    const fields = { sun: 'direct', lineCurrentA: 360, current30minA: 360, windMS: 4 } as const
    expect(judge([infrared(fields)], { conductorCode: undefined }).infrared[0]?.inconclusive).toEqual([])
  })

  it('more than 3 K over its own conductor is hot, also where the picture is inconclusive', () => {
    const assessment = judge([infrared({ spliceTempC: 46, lineCurrentA: 100, current30minA: 100 })])
    expect(assessment.infrared[0]).toMatchObject({ hot: true, inconclusive: ['not-detectable', 'conductor-hotter-than-current'] })
    expect(assessment).toMatchObject({ class: 'unknown', flags: ['infrared-hot', 'infrared-inconclusive'] })
    expect(actionCodes(assessment)).toEqual(['measure-resistance'])
  })

  it('a hot picture asks for no resistance where it is measured', () => {
    const hot = infrared({ spliceTempC: 46, rain1h: true })
    expect(actionCodes(judge([resistance(), hot]))).not.toContain('measure-resistance')
    expect(actionCodes(judge([resistance({ sideAUohm: 8 }), hot]))).toEqual(['repeat-reading'])
  })

  it.each([
    ['3 K and no more', { spliceTempC: 45 }], ['strong wind', { spliceTempC: 50, windMS: 9 }],
    ['another fitting as reference', { spliceTempC: 50, referenceKind: 'same-fitting' }], ['air as reference', { spliceTempC: 50,
      referenceKind: 'air' }],
  ] as const)('is not hot: %s', (_name, fields) => {
    expect(judge([infrared(fields)]).infrared[0]?.hot).toBe(false)
  })

  it('shows nothing of health where it is inconclusive and shows nothing hot: a cool picture moves no chance', () => {
    const alone = judge([resistance({ sideAUohm: 27 })])
    expect(judge([resistance({ sideAUohm: 27 }), infrared({ rain1h: true })]).sides[0]?.pOver).toEqual(alone.sides[0]?.pOver)
  })

  it('hot makes a poor interface five times likelier, once however often it was seen', () => {
    const odds = (p = 0) => p / (1 - p)
    const reading = resistance({ sideAUohm: 27 })
    const before = judge([reading]).sides[0]?.pOver.degraded
    const hot = infrared({ spliceTempC: 50, rain1h: true })
    expect(odds(judge([reading, hot]).sides[0]?.pOver.degraded) / odds(before)).toBeCloseTo(5, 8)
    expect(judge([reading, hot, infrared({ spliceTempC: 52, rain1h: true })]).sides[0]?.pOver).toEqual(judge([reading, hot]).sides[0]?.pOver)
  })

  it('hot in more than 4 m/s never lifts a class above degraded', () => {
    const old = (sideAUohm: number) => resistance({ sideAUohm, takenAtMs: NOW_MS - 20 * YEAR_MS })
    const withWind = (sideAUohm: number, windMS: number) => judge([old(sideAUohm), infrared({ spliceTempC: 50, windMS, rain1h: true })]).class
    const sides = Array.from({ length: 100 }, (_, i) => 15 + i / 10)
    const lifted = sides.filter((sideAUohm) => judge([old(sideAUohm)]).class === 'degraded' && withWind(sideAUohm, 1) === 'urgent')
    expect(lifted.length).toBeGreaterThan(0)
    for (const sideAUohm of lifted) expect(withWind(sideAUohm, 6)).toBe('degraded')
  })

  it('carries the published criteria with their source', () => {
    const [note] = judge([infrared({ spliceTempC: 58 })]).infrared
    expect(note?.criteria.map(({ column, fromK, upToK }) => [column, fromK, upToK]))
      .toEqual([['similar component', 15, null], ['ambient air', 20, 40]])
  })
})
