import jstat from 'jstat'
import { describe, expect, it } from 'vitest'
import { defaultPolicy, explain, showClass } from '@/lib/condition'
import { actionCodes, infrared, judge, NOW_MS, reasonCodes, resistance, visual, YEAR_MS } from './evidence'

/** A splice at 600 A beside a conductor at 42 °C in air of 20 °C. */
const cool = (fields: Parameters<typeof infrared>[0] = {}) => infrared({ spliceTempC: 32, ...fields })
const hot = (fields: Parameters<typeof infrared>[0] = {}) => infrared({ spliceTempC: 70, ...fields })

describe('infrared alone', () => {
  it('gives a class with no more than medium confidence and asks for resistance', () => {
    const sound = judge([cool()])
    expect(sound).toMatchObject({ class: 'sound', confidence: 'medium', ratio: undefined, governingSide: undefined })
    expect(sound.flags).toEqual(['infrared-only'])
    expect(actionCodes(sound)).toEqual(['measure-again', 'measure-resistance'])
    expect(sound.nextActions[0]?.withinDays).toBe(730)
    const bad = judge([hot()])
    expect(bad.class).toBe('critical')
    expect(explain(bad, { unitSystem: 'us' }).headline).toMatch(/^Critical: by infrared it is believed to have \d\.\d\d times .* \(measured 3\.\d\d\)/)
  })

  it('leads with the figure that decides, and with the chance where that figure by itself reads milder', () => {
    const old = judge([infrared({ spliceTempC: 47, takenAtMs: NOW_MS - 5 * YEAR_MS })])
    const { meanLnK, sdLnK } = old.fusion?.believed ?? { meanLnK: NaN, sdLnK: NaN }
    expect(old.class).toBe('urgent')
    expect(Math.exp(meanLnK)).toBeLessThan(1.85)
    // The upper tail of the normal distribution (definition), by a general library.
    const chance = 1 - jstat.normal.cdf(Math.log(1.85), meanLnK, sdLnK)
    expect(chance).toBeGreaterThanOrEqual(defaultPolicy.pRules.urgent)
    expect(explain(old, { unitSystem: 'us' }).headline).toBe(`Urgent: by infrared it is believed to have ${Math.exp(meanLnK).toFixed(2)} times the resistance of the `
      + `same length of conductor (measured ${old.fusion?.sources[0]?.k.toFixed(2)}); a chance of ${Math.round(chance * 100)}% that it is over 1.85 makes it urgent.`)
  })

  it('is due again within its own, shorter interval', () => {
    expect(judge([cool()]).nextReadingDueMs).toBeLessThanOrEqual(NOW_MS + 2 * YEAR_MS)
  })

  it('at low load is inconclusive and never sound, and says which load would do', () => {
    const low = judge([infrared({ lineCurrentA: 200, current30minA: 200, conductorTempC: 22.2, spliceTempC: 21.6 })])
    expect(low).toMatchObject({ class: 'unknown', flags: ['infrared-inconclusive'] })
    const said = explain(low, { unitSystem: 'metric' }).reasons.join(' ')
    expect(said).toMatch(/A splice of ratio 2\.00 would have stood out by 0\.9 °C, where 3\.0 °C prove something; in that weather it takes about 3\d\d A\./)
  })

  it('gives no class to fittings that are not judged by a ratio', () => {
    expect(judge([hot()], { kind: 'shield-wire splice' }).class).toBe('unknown')
    expect(judge([hot()], { fittingType: 'automatic' }).class).toBe('unknown')
    expect(judge([hot()], { kind: 'parallel-groove' }).class).toBe('unknown')
  })

  it('makes nothing sound whose reading lay on the barrel alone', () => {
    expect(judge([resistance({ sideAUohm: 8, sideBUohm: 8 }), cool()]).class).toBe('unknown')
    expect(judge([resistance({ sideAUohm: 8, sideBUohm: 8 }), hot()]).class).toBe('critical')
  })

  it('takes the worse of two flights that cannot both be right', () => {
    const flights = judge([hot({ survey: 'F0', takenAtMs: NOW_MS - YEAR_MS }), cool()])
    expect(flights.class).toBe('critical')
    expect(flights.flags).toContain('infrared-conflict')
    expect(reasonCodes(flights)).toContain('infrared-flights-conflict')
  })

  it('lets the surest picture of a flight speak for it', () => {
    const both = judge([cool({ current30minA: undefined }), hot({ takenAtMs: NOW_MS - 60_000 })])
    expect(both.fusion?.sources[0]?.k).toBeCloseTo(both.infrared.find(({ takenAtMs }) => takenAtMs !== NOW_MS)?.k ?? Number.NaN, 10)
  })

  it('does not count the heat of a conclusive picture twice', () => {
    const alone = judge([hot()])
    expect(judge([hot(), hot({ rain1h: true, takenAtMs: NOW_MS - 60_000 })]).shares).toEqual(alone.shares)
  })
})

describe('infrared beside resistance', () => {
  it('that agrees is fused, with both sources on the axis', () => {
    const { fusion, class: condition, flags } = judge([resistance(), infrared({ spliceTempC: 34 })])
    expect(fusion).toMatchObject({ conflict: false, taken: 'both', limit: 6.63 })
    expect(fusion?.sources.map(({ source }) => source)).toEqual(['resistance', 'infrared'])
    expect(fusion?.sources[0]?.k).toBeCloseTo((15.05 + 16.1) / 2 / 21.5, 10)
    expect(fusion?.sources[1]?.uLnK).toBe(defaultPolicy.radiometry.leastULnK)
    expect(condition).toBe('sound')
    expect(flags).toEqual([])
  })

  it('that is the worse of a contradiction stands, and the reading that settles it is named', () => {
    const assessment = judge([resistance(), hot()])
    expect(assessment).toMatchObject({ class: 'critical', confidence: 'low', fusion: { conflict: true, taken: 'infrared' } })
    expect(assessment.flags).toContain('infrared-conflict')
    expect(reasonCodes(assessment)).toEqual(expect.arrayContaining(['infrared-conflict', 'settle-infrared-conflict']))
    expect(actionCodes(assessment)).toContain('repeat-reading')
    expect(explain(assessment, { unitSystem: 'us' }).headline).toMatch(/by infrared it is believed to have \d\.\d\d times .* \(measured 3\.\d\d\), which contradicts resistance/)
  })

  it('that is the better of a contradiction changes nothing but the confidence', () => {
    const bad = resistance({ sideAUohm: 90, sideBUohm: 80 })
    const assessment = judge([bad, cool()])
    expect(assessment).toMatchObject({ class: 'critical', confidence: 'low', fusion: { conflict: true, taken: 'resistance' } })
    expect(assessment.sides).toEqual(judge([bad]).sides)
  })

  it('is carried to the worse side by how far that side measured from the mean', () => {
    const uneven = resistance({ sideAUohm: 16, sideBUohm: 32 })
    const mean = (16 + 32) / 2 / 21.5
    const { sides, fusion } = judge([uneven, infrared({ spliceTempC: 38 })])
    const k = fusion?.sources[1]?.k ?? Number.NaN
    const [a, b] = sides
    const [alone] = judge([uneven]).sides
    expect(Math.sign((a?.meanLnK ?? 0) - (alone?.meanLnK ?? 0))).toBe(Math.sign(k - mean))
    expect(b?.medianK).toBeGreaterThan(a?.medianK ?? Infinity)
  })

  it('where one side is not read speaks for the splice, and the worse of both governs', () => {
    const one = resistance({ sideBUohm: undefined })
    expect(judge([one, hot()])).toMatchObject({ class: 'critical', flags: ['partial', 'infrared-only', 'infrared-hot'] })
    const worse = resistance({ sideAUohm: 60, sideBUohm: undefined })
    const governed = judge([worse, cool()])
    expect(governed).toMatchObject({ class: 'critical', governingSide: 'A' })
    expect(governed.flags).not.toContain('infrared-only')
  })

  it('never is moved by a mechanical finding', () => {
    const evidence = [resistance(), infrared({ spliceTempC: 34 })]
    expect(judge([...evidence, visual(['slip', 'gap'])]).sides).toEqual(judge(evidence).sides)
  })
})

describe('what is on show', () => {
  it('holds a class that infrared gave until two good visits by resistance; no flight clears it', () => {
    const found = hot({ takenAtMs: NOW_MS - 3 * YEAR_MS })
    const shown = showClass(null, judge([found]), defaultPolicy)
    expect(shown).toMatchObject({ class: 'critical', held: false, foundAtMs: found.takenAtMs })
    expect(shown.foundRatio).toBeGreaterThan(2.75)
    const later = [1, 2].map((year) => resistance({ takenAtMs: NOW_MS - (3 - year) * YEAR_MS, survey: `S${year}` }))
    const flights = [1, 2].map((year) => cool({ takenAtMs: NOW_MS - (3 - year) * YEAR_MS, survey: `F${year}` }))
    expect(showClass(shown, judge([found, ...flights]), defaultPolicy).class).toBe('critical')
    expect(showClass(shown, judge([found, ...later.slice(0, 1)]), defaultPolicy).class).toBe('critical')
    const settled = judge([found, ...later])
    expect(showClass(shown, settled, defaultPolicy)).toMatchObject({ class: 'sound', held: false })
    expect(settled.fusion).toMatchObject({ settled: true, conflict: false, taken: 'resistance' })
    expect(reasonCodes(settled)).toContain('infrared-settled')
  })
})

describe('trends of an assessment', () => {
  const year = (age: number, sideAUohm: number, fields: Parameters<typeof resistance>[0] = {}) =>
    resistance({ takenAtMs: NOW_MS - age * YEAR_MS, survey: `S${age}`, sideAUohm, ...fields })

  it('follow each side for itself since the last repair', () => {
    const trends = judge([year(6, 12), year(4, 13), year(2, 14.5), year(0, 17)]).trends
    expect(trends?.map(({ series, points }) => [series, points.length])).toEqual([['A', 4], ['B', 4]])
    expect(trends?.[0]?.growthPerYear).toBeGreaterThan(trends?.[1]?.growthPerYear ?? Infinity)
    expect(judge([year(6, 12), year(4, 13, { afterRepair: true }), year(0, 17)]).trends?.[0]?.points).toHaveLength(2)
  })

  it('break where nobody said which side is which, and where the electrodes moved', () => {
    expect(judge([year(4, 13, { sidesDeclared: false }), year(0, 17)]).trends).toBeUndefined()
    expect(judge([year(4, 13, { barrelElectrodeM: 0.05 }), year(0, 17, { barrelElectrodeM: 0.15 })]).trends).toBeUndefined()
  })

  it('keep infrared a series of the splice', () => {
    const trends = judge([cool({ takenAtMs: NOW_MS - 2 * YEAR_MS, survey: 'F0' }), infrared({ spliceTempC: 34 })]).trends
    expect(trends?.map(({ series }) => series)).toEqual(['infrared'])
  })

  it('say in words how a side grows and when it may pass the next edge', () => {
    const said = explain(judge([year(6, 12), year(4, 13), year(2, 14.5), year(0, 17)]), { unitSystem: 'us' }).reasons.join(' ')
    expect(said).toMatch(/The ratio of side A grows by \d+% a year over 4 readings; at the earliest it passes 1\.00 \(watch\) (on \d+ \w+ |in )20\d\d, most likely (on|in) /)
    expect(said).toContain('The ratio of side B')
  })

  it('say both where the edge may be passed already: that it may, and when most likely', () => {
    const said = explain(judge([year(5, 18.5), year(4, 19), year(3, 19.2), year(2, 19.9), year(0, 20.6)]), { unitSystem: 'us' }).reasons.join(' ')
    expect(said).toMatch(/The ratio of side A grows by \d+% a year over 5 readings; it may be past 1\.00 \(watch\) already, and most likely passes it (on|in) /)
  })

  it('tell a day that lies far off by its year', () => {
    const said = explain(judge([year(9, 12), year(6, 12.1), year(3, 12.2), year(0, 12.3)]), { unitSystem: 'us' }).reasons.join(' ')
    expect(said).toMatch(/most likely in 2\d\d\d\./)
  })

  it('are not drawn through readings that contradict each other, nor through readings of one year', () => {
    const fell = judge([year(6, 45), year(3, 15), year(0, 16)])
    expect(fell.trends?.find(({ series }) => series === 'A')).toBeUndefined()
    expect(explain(fell, { unitSystem: 'us' }).reasons).toContain('The ratio of side A shows no trend: the readings contradict each other. Repeat the reading.')
    const close = judge([year(0.4, 12), year(0.2, 12.1), year(0, 12.2)])
    expect(close.trends).toBeUndefined()
    expect(explain(close, { unitSystem: 'us' }).reasons).toContain('The ratio of side A shows no trend: the readings lie within 1 year.')
  })
})
