import { describe, expect, it } from 'vitest'
import { circuitsAsked } from '@/components/loading/address'
import { answerOf, faultOf } from '@/components/loading/answer'
import { flightRows } from '@/components/loading/flight-model'
import { oldLoadText, pixelsText, showsOn, standingText as flightStandingText } from '@/components/loading/flight-words'
import { lineSections } from '@/components/loading/line-model'
import { plotPaths } from '@/components/loading/marks'
import { firstDueOf } from '@/components/loading/loading-foot'
import { allowanceOf, drawnJoints, unread } from '@/components/loading/reckon'
import { labelGroups, temperatureRange } from '@/components/loading/plot-scale'
import { allowsText, limitText, passText, standingText, weatherText, whatIfText } from '@/components/loading/words'
import { defaultPolicy, policySchema } from '@/lib/condition'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import { circuitJoints, type CircuitJointsJson, type LineJointJson } from '@/lib/contract/loading'

const joint = (id: number, more: Partial<LineJointJson> = {}): LineJointJson => ({
  id, splice: `J-${id}`, section_id: 1, line_distance_m: id * 100, structure_back: '1', structure_ahead: '2', offset_m: 10, phase: 'A', position: null,
  circuit_side: null, subconductor: null, kind: 'full-tension splice', fitting_type: null, barrel_od_mm: 47.6, class: 'sound', held: false, k: 0.6, upper_k: 0.7,
  basis: 'read', figure: true, limit: null, response: null, ...more,
})

const circuit = (joints: LineJointJson[], more: Partial<CircuitJointsJson['sections'][number]> = {}): CircuitJointsJson => circuitJoints.parse({
  circuit_id: 1, circuit: 'C1', policy_version: 1, joints,
  sections: [{
    id: 1, circuit_id: 1, circuit: 'C1', line_name: null, voltage_kv: 230, name: 'main', from: null, to: null, conductor: 'Drake', subconductors: 1,
    rating_a: 900, rating_emergency_a: 1040, max_operating_c: 75, elevation_m: null, length_m: 1000, last_load: { current_a: 400, taken_at: '2026-10-30T00:00:00Z', quality: 'measured' },
    expected_peak: { current_a: 700, taken_at: '2026-12-01T00:00:00Z' }, post_contingency: null, day_loads: [
      { taken_at: '2026-10-29T18:00:00Z', current_a: 850 }, { taken_at: '2026-10-30T00:00:00Z', current_a: 400 },
    ], splice_count: joints.length, barrels_od_mm: [47.6], barrels_unknown: 0, lon: -114, lat: 47, azimuth_deg: 90, structures: [], ...more,
  }],
})

const INPUTS = {
  circuit: [1], bbox: null, air: null, wind: null, angle: null, sun: null, load: 'rating' as const, a: null, figure: 'peak' as const, source: null, share: null,
}
const BAD = joint(2, { class: 'critical', k: 2.9, upper_k: 3 })
const WORSE = joint(3, { class: 'critical', k: 3.4, upper_k: 3.6 })
const UNREAD = joint(4, { class: 'unknown', k: 0.65, upper_k: 4, basis: 'unread', figure: false })

const answer = (joints: LineJointJson[], inputs: Partial<Record<keyof typeof INPUTS, unknown>> = {}, more: Partial<CircuitJointsJson['sections'][number]> = {}) =>
  answerOf(lineSections([circuit(joints, more)], defaultPolicy), { ...INPUTS, ...inputs } as typeof INPUTS, defaultPolicy)

describe('the answer of the loading page', () => {
  it('lists what would pass 93 °C, the hottest first; the worst one limits', () => {
    const { over, tightest, rating } = answer([joint(1), BAD, WORSE])
    expect(over.map(({ joint: { of } }) => of.splice)).toEqual(['J-3', 'J-2'])
    expect(tightest).toMatchObject({ joint: { of: { id: 3 } }, limit: { use: 'for-operations', limitedBy: 'splice' } })
    expect(rating).toBe(true)
    // Drake at 900 A in rating weather with k 3 is a little under the 134.6 °C that it has at 906.8 A (computed with an independent reference).
    expect(over[1]?.joint.upperC).toBeGreaterThan(130)
    expect(over[1]?.joint.upperC).toBeLessThan(135)
  })

  it('never counts an unread splice as one that passes, that holds or that limits', () => {
    const { over, tightest, reckoned } = answer([joint(1), UNREAD])
    expect(over).toEqual([])
    expect(tightest?.joint.of.id).toBe(1)
    expect(unread(reckoned)).toMatchObject({ count: 1, upperK: 4, blind: [] })
  })

  it('gives no current over that of the section, and none for a splice that is unread or held', () => {
    const held = joint(5, { class: 'critical', held: true, k: 2.9, upper_k: 3.1, basis: 'finding', figure: false })
    const { reckoned: [section] } = answer([joint(1), BAD, UNREAD, held])
    if (!section) throw new Error('a section')
    const [good, bad, unknown, kept] = section.joints.map((one) => ({ one, allows: allowanceOf(one, section), text: allowsText(one, section) }))
    // Drake with k 0.7 would carry about 1,300 A by itself.
    expect(good?.one.spliceA).toBeGreaterThan(1000)
    expect(good?.text).toBe('900 A, section')
    expect(bad?.allows).toMatchObject({ by: 'splice' })
    expect(bad?.allows?.lineA).toBeLessThan(900)
    expect(unknown).toMatchObject({ allows: null, text: 'not known' })
    expect(kept).toMatchObject({ allows: null, text: 'not known: held, ask the rating engineer' })
  })

  it('has no figure for a circuit that a held splice would limit, and none where one fails without a ratio', () => {
    const held = joint(5, { class: 'critical', held: true, k: 3.4, upper_k: 3.6, basis: 'finding', figure: false })
    const found = answer([joint(1), BAD, held])
    expect(found).toMatchObject({ lead: { mayBeLower: [{ id: 5 }] }, tightest: null })
    expect(found.lead && limitText(found.lead, true, defaultPolicy, 'metric')).toMatch(/^C1: not more than \d+ A per phase, by splice J-2; J-5 is held critical above what its readings now say and may be lower\. Ask the rating engineer\.$/)
    expect(found.lead?.rated?.limit.lineA).toBe(answer([joint(1), BAD]).lead?.rated?.limit.lineA)
    const alone = answer([joint(1), held])
    expect(alone.lead).toMatchObject({ mayBeLower: [{ id: 5 }], rated: null })
    expect(alone.lead && limitText(alone.lead, true, defaultPolicy, 'metric')).toBe('C1: limit not known, for J-5 is held critical above what its readings now say. Ask the rating engineer.')
    const hot = joint(6, { class: 'urgent', k: 0.65, upper_k: 4, basis: 'unread', figure: false })
    expect(answer([joint(1), BAD, hot])).toMatchObject({ lead: { mayBeLower: [{ id: 6 }] }, tightest: null })
    // A held one that limits nothing leaves the figure of the worse one.
    expect(answer([WORSE, joint(5, { held: true, class: 'urgent', k: 1.9, upper_k: 2, basis: 'finding', figure: false })]).tightest?.joint.of.id).toBe(3)
  })

  it('leaves the rating where a held splice allows more, and names every one that may allow less', () => {
    const held = (id: number, k: number, of: 'urgent' | 'critical') => joint(id, { class: of, held: true, k: k - 0.1, upper_k: k, basis: 'finding', figure: false })
    // Drake at 907 A stays under 93 °C up to k 1.8 (k 2: 97.9 °C, computed with an independent reference).
    const mild = answer([joint(1), held(5, 1.5, 'urgent')])
    expect(mild.lead).toMatchObject({ mayBeLower: [], rated: { limit: { limitedBy: 'section' } } })
    const both = answer([joint(1), BAD, held(5, 3.4, 'urgent'), held(6, 3.6, 'critical')])
    expect(both.lead?.mayBeLower.map(({ id }) => id)).toEqual([6, 5])
    expect(both.lead && limitText(both.lead, true, defaultPolicy, 'metric')).toContain('J-6 is held critical above what its readings now say and may be lower, as may 1 more.')
  })

  it('says with every answer what stands on the circuit, and which day its current is of', () => {
    const found = answer([joint(1), BAD, UNREAD], { load: 'last' })
    expect(standingText(found)).toBe('1 critical, 0 urgent, 1 not known on this circuit: this does not clear them.')
    expect(passText(found, 'last', defaultPolicy, 'metric', 'UTC')).toBe('None of 2 read splices would pass 93 °C at the load of 30 Oct 2026, 400 A.')
    expect(passText(answer([UNREAD]), 'last', defaultPolicy, 'metric', 'UTC')).toBe('Not known: none of 1 splice was read, and nothing can be said of them.')
  })

  it('leads in any other weather with the limit at rating weather, and gives the other as no rating', () => {
    const rated = answer([BAD])
    const windy = answer([BAD], { wind: 4.4 })
    const stays = rated.lead?.rated?.limit.lineA ?? NaN
    expect(windy.lead?.rated?.limit).toEqual(rated.lead?.rated?.limit)
    expect(windy.lead?.found?.limit.lineA).toBeGreaterThan(stays)
    expect(windy.lead && limitText(windy.lead, false, defaultPolicy, 'metric')).toBe(`C1: limit at rating weather stays ${Math.floor(stays)} A per phase, limited by splice J-2 at 93 °C.`)
    expect(windy.lead && whatIfText(windy.lead)).toMatch(/^In the weather taken \d+ A per phase, not a rating\.$/)
    const hot = answer([BAD], { air: 40 })
    expect(hot.lead && whatIfText(hot.lead)).toMatch(/^In the weather taken only \d+ A per phase, not a rating\.$/)
  })

  it('tells what would pass as it is believed from what could at its upper ratio', () => {
    // Drake at 907 A passes 93 °C between k 1.8 and 1.9 (k 2: 97.9 °C, computed with an independent reference).
    const doubtful = joint(7, { class: 'urgent', k: 1.3, upper_k: 2.4 })
    const text = (joints: LineJointJson[]) => passText(answer(joints), 'rating', defaultPolicy, 'metric', 'UTC')
    expect(text([BAD, WORSE, doubtful])).toBe('2 splices would pass 93 °C, 1 more could, at the upper ratio, at the section’s rating, 900 A.')
    expect(text([doubtful])).toBe('None of 1 read splice would pass 93 °C, 1 could, at the upper ratio, at the section’s rating, 900 A.')
  })

  it('says with its weather what else the balance takes', () => {
    const high = { ...defaultPolicy, ...policySchema.parse({ ratingWeather: { elevationM: 1000 } }) }
    expect(weatherText(ratingWeatherOf(high), high, 'metric')).toBe('Air 25 °C, wind 0.61 m/s at 90° to the line, sun 1,000 W/m², elevation 1,000 m, emissivity 0.5.')
    expect(weatherText(ratingWeatherOf(high), high, 'metric', [400, 1900, 1000])).toContain('elevation 400 m to 1,900 m, emissivity')
    expect(weatherText(ratingWeatherOf(high), high, 'metric', [400, 400])).toContain('elevation 400 m, emissivity')
  })

  it('leaves out by name what no heat balance is drawn for', () => {
    const [section] = lineSections([circuit([joint(1), joint(2, { kind: 'wedge' }), joint(3, { kind: 'shield-wire splice' })])], defaultPolicy)
    expect(section?.joints.map(({ of }) => of.id)).toEqual([1])
    expect(section?.leftOut.map(({ why }) => why)).toEqual(['no-barrel', 'shield-wire'])
  })

  it.each([
    ['last', {}, 400], ['peak', {}, 700], ['contingency', {}, null], ['rating', {}, 900], ['emergency', {}, 1040], ['own', { a: 512 }, 512], ['last', { share: 150 }, 600],
  ] as const)('takes the %s current as it is known', (load, more, currentA) => {
    expect(answer([joint(1)], { load, ...more }).reckoned[0]?.currentA).toBe(currentA)
  })

  it('says without a current what the worst splice allows, and draws nothing', () => {
    const { reckoned, tightest, over } = answer([BAD], { load: 'last' }, { last_load: null })
    expect(reckoned[0] && drawnJoints(reckoned[0])).toEqual([])
    expect(over).toEqual([])
    expect(tightest?.limit.lineA).toBeGreaterThan(600)
  })

  it('is no rating in any other weather', () => {
    expect(answer([BAD], { air: 20 })).toMatchObject({ rating: false, tightest: { limit: { use: 'not-a-rating' } } })
  })

  it('names the figure that cannot be right', () => {
    expect(faultOf({ ...INPUTS, air: 90 } as never, defaultPolicy, 'metric')).toMatch(/^Air: 90 °C cannot be right/)
    expect(faultOf(INPUTS as never, defaultPolicy, 'metric')).toBeUndefined()
  })

  it('has no temperature where the current is over what the heat balance takes, and says which', () => {
    expect(answer([joint(1)], { load: 'own', a: 4000 }).reckoned[0]).toMatchObject({ drawn: false, refusal: { quantity: 'currentA', value: 4000 } })
  })
})

describe('the circuits of an address', () => {
  const CIRCUITS = [{ id: 7, name: '1420' }, { id: 12, name: '7' }, { id: 13, name: 'North tap' }]
  it('are asked for by id or by name, an id before a name, and what is neither is said', () => {
    expect(circuitsAsked(['1420'], CIRCUITS)).toEqual({ ids: [7], unknown: [] })
    expect(circuitsAsked(['7', '1420', 'north tap '], CIRCUITS)).toEqual({ ids: [7, 13], unknown: [] })
    expect(circuitsAsked(['9999', '12'], CIRCUITS)).toEqual({ ids: [12], unknown: ['9999'] })
    expect(circuitsAsked(null, CIRCUITS)).toEqual({ ids: [], unknown: [] })
  })
})

describe('the plot', () => {
  it('draws every mark once, whiskers where the upper ratio is hotter, an arrow where it leaves the axis', () => {
    const at = { x: 10, y: 50 }
    const paths = plotPaths([
      { class: 'sound', ...at, upperY: 50, beyond: false, unread: false }, { class: 'urgent', ...at, upperY: 30, beyond: false, unread: false },
      { class: 'critical', ...at, upperY: 14, beyond: true, unread: false }, { class: 'unknown', ...at, upperY: 20, beyond: false, unread: true },
    ])
    expect(paths.marks.sound.match(/M/g)).toHaveLength(1)
    expect(paths.marks.urgent).toContain('M10 50')
    expect(paths.whiskers).toContain('V30m-2 0h4')
    expect(paths.whiskers).toContain('V2m-3 5l3 -5l3 5')
    expect(paths.faint).toBe('')
    // Nobody read it: nothing says where it lies, so it has no mark.
    expect(paths.marks.unknown).toBe('')
    expect(paths.hatched).toContain('M10 50V20')
  })

  it('joins the labels of lines that lie closer than a label is high, so that no line strikes one through', () => {
    const label = (key: string, yPx: number) => ({ key, yPx, text: key })
    expect(labelGroups([label('conductor', 104), label('limit', 50), label('section', 100)], 17).map(({ yPx, labels }) => [yPx, labels.map(({ key }) => key)]))
      .toEqual([[50, ['limit']], [100, ['section', 'conductor']]])
  })

  it('keeps its axis while the hottest moves within a step, and ends it at 250 °C', () => {
    expect(temperatureRange(25, 101, [93, 75])).toEqual(temperatureRange(25, 112, [93, 75]))
    expect(temperatureRange(25, Infinity, [93])).toEqual({ fromC: 25, toC: 275 })
  })
})

const ASKED = { air: 20, wind: 1, sky: 'none', at: null, load: 'last', share: 100, netd: 0.05, ifov: 0.68, dist: null } as const

describe('the sections before a flight', () => {
  const rows = (more: object = {}, section: Partial<CircuitJointsJson['sections'][number]> = {}) => flightRows(circuit([joint(1)], section).sections, { ...ASKED, ...more }, defaultPolicy)

  it('do not fly at 400 A, and say when within the day it carried enough', () => {
    const [row] = rows()
    expect(row?.standing).toBe('do-not-fly')
    expect(row?.verdict?.neededLineA).toBeGreaterThan(400)
    expect(row?.enoughAtMs).toEqual([Date.parse('2026-10-29T18:00:00Z')])
  })

  it('are marginal where the load falls short by next to nothing, or has next to nothing to spare', () => {
    const needed = rows()[0]?.verdict?.neededLineA ?? NaN
    for (const more of [0.99, 1.01]) expect(rows({ share: (100 * more * needed) / 400 })[0]?.standing).toBe('marginal')
    expect(rows({ share: (100 * 0.9 * needed) / 400 })[0]?.standing).toBe('do-not-fly')
    expect(rows({ share: (100 * 1.1 * needed) / 400 })[0]?.standing).toBe('fly')
    expect(rows({ wind: 5, share: 200 })[0]?.standing).toBe('do-not-fly')
  })

  it('say what a splice that is bad on one side alone would show: less than one that is bad on both', () => {
    const [row] = rows({ share: 200 })
    // One side at the critical edge of 2.75, the other at 0.8: a mean of 1.775.
    expect(row?.oneSided).toMatchObject({ badK: 2.75, meanK: expect.closeTo(1.775, 9) as number })
    expect(row?.oneSided?.shownK).toBeLessThan(row?.verdict?.shownK ?? NaN)
    const needed = rows()[0]?.verdict?.neededLineA ?? NaN
    expect(rows({ share: (100 * 1.06 * needed) / 400 })[0]?.oneSided?.wouldShow).toBe(false)
  })

  it('fly at twice that, from as near as the lens asks', () => {
    expect(rows({ share: 200 })[0]?.standing).toBe('fly')
    const [far] = rows({ share: 200, dist: 60 })
    expect(far?.standing).toBe('nearer')
    // Three pixels of 47.6 mm from 60 m: 0.264 mrad.
    expect(far?.ifovForDistanceMrad).toBeCloseTo(0.0476 / 3 / 60 * 1000, 6)
  })

  it('name one that is bad on one side alone wherever they name one that is bad on both', () => {
    const needed = rows()[0]?.verdict?.neededLineA ?? NaN
    const hidden = rows({ share: (100 * 1.1 * needed) / 400 })
    // Three pixels of 47.6 mm at 0.68 mrad: 23.33 m, or 76.5 ft, and never more.
    expect(hidden[0] && flightStandingText(hidden[0], ASKED, 'us')).toBe('Both sides bad: would show within 76 ft; one side: would not')
    expect(showsOn(hidden, null)).toBe('A splice bad on both sides would show on 1 of 1 sections; critical on one side only: would show on 0 of 1.')
    const plain = rows({ share: 230 })
    expect(plain[0] && flightStandingText(plain[0], ASKED, 'metric')).toBe('Would show within 23 m')
    expect(showsOn(plain, null)).toMatch(/critical on one side only: would show on 1 of 1\.$/)
    expect(showsOn(rows(), null)).toBe('A splice bad on both sides would show nowhere today, and none that is critical on one side only.')
  })

  it('say how near the conductor fills its pixels, and what a farther look does to the reference', () => {
    const [flown, not] = [rows({ share: 230 })[0], rows()[0]]
    // Drake, 28.14 mm, and its barrel of 47.6 mm, three pixels of 0.68 mrad each: 13.8 m and 23.3 m, never more.
    expect(flown && pixelsText(flown, { dist: null }, defaultPolicy, 'metric')).toBe('The barrel fills 3 pixels within 23 m, its conductor within 13 m.')
    expect(flown && pixelsText(flown, { dist: 20 }, defaultPolicy, 'metric')).toMatch(/ From 20 m the conductor reads mixed with the sky, and the splice looks hotter against it than it is\.$/)
    expect(not && pixelsText(not, { dist: null }, defaultPolicy, 'metric')).toBe('')
  })

  it('say how old their loads are, unless they are of the day', () => {
    const aged = (iso: string, load: 'last' | 'rating' = 'last') => oldLoadText(rows(), { load }, Date.parse(iso))
    expect(aged('2026-11-30T06:00:00Z')).toBe('Loads are 31 days old: ask for the load of the hour.')
    expect(aged('2026-10-30T20:00:00Z')).toBeNull()
    expect(aged('2026-11-30T06:00:00Z', 'rating')).toBeNull()
  })

  it('take the sun of their place and hour in clear air, and none where it is down', () => {
    const sunAt = (at: string | null, more: object = {}, section: object = {}) =>
      rows({ sky: 'direct', at: at === null ? null : new Date(at), ...more }, { lat: 30, lon: 0, azimuth_deg: 90, ...section })[0]
    // Solar 11:00 on 10 June at 30° N, a line from east to west: 1027 W/m² over sin 76.2° on the line (the worked example of IEEE Std 738-2012), to a minute of clock.
    expect(sunAt('2026-06-10T10:59:00Z')?.sunWPerM2).toBeCloseTo(997.7, -1)
    expect(sunAt('2026-06-10T10:59:00Z', {}, { lat: -30 })?.sunWPerM2).toBeLessThan(900)
    expect(sunAt(null)?.sunWPerM2).toBe(defaultPolicy.radiometry.directSunWPerM2)
    expect(sunAt('2026-06-10T10:59:00Z', { sky: 'diffuse' })?.sunWPerM2).toBe(defaultPolicy.radiometry.diffuseSunWPerM2)
    const night = sunAt('2026-06-10T23:00:00Z', { share: 50 })
    expect(night?.sunWPerM2).toBe(0)
    expect(night?.verdict?.obstacles).not.toContain('sun')
    expect(sunAt('2026-06-10T10:59:00Z', { share: 50 })?.verdict?.obstacles).toContain('sun')
  })

  it('ask for more load where the policy counts the heat that a splice gives to its conductor', () => {
    const policy = { ...defaultPolicy, ...policySchema.parse({ radiometry: { heatAlongLine: true } }) }
    const needed = (by: typeof policy) => flightRows(circuit([joint(1)]).sections, ASKED, by)[0]?.verdict?.neededLineA ?? NaN
    expect(needed(policy)).toBeGreaterThan(needed(defaultPolicy) * 1.05)
  })

  it('say so where the load, or the conductor, is not known', () => {
    expect(rows({}, { last_load: null })[0]).toMatchObject({ standing: 'load-unknown', verdict: { neededLineA: expect.any(Number) as number } })
    expect(rows({}, { conductor: null })[0]?.standing).toBe('not-reckoned')
  })
})

describe('the paper', () => {
  it('lapses by the first thing that falls due of any splice on it', () => {
    const response = (withinHours: number) => ({
      actions: [{ code: 'call-control-room', withinHours }], raised_at: '2026-10-30T00:00:00Z', last_reading_at: null, next_reading_due_at: null,
    })
    const circuits = [circuit([joint(1), joint(2, { response: response(72) }), joint(3, { response: response(1) })])]
    const at = (iso: string) => Date.parse(iso)
    expect(firstDueOf(circuits, at('2026-10-30T00:10:00Z'))).toBe(at('2026-10-30T01:00:00Z'))
    expect(firstDueOf(circuits, at('2026-10-30T02:00:00Z'))).toBe(at('2026-11-02T00:00:00Z'))
    expect(firstDueOf([circuit([joint(1)])], 0)).toBeUndefined()
  })
})
