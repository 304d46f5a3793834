import { describe, expect, it } from 'vitest'
import { answerOf, leadsWith } from '@/components/loading/answer'
import { lineSections } from '@/components/loading/line-model'
import { allowsText, besideText, limitText, passedLimitText } from '@/components/loading/words'
import { defaultPolicy } from '@/lib/condition'
import { circuitJoints, type LineJointJson } from '@/lib/contract/loading'

const joint = (id: number, more: Partial<LineJointJson> = {}): LineJointJson => ({
  id, splice: `J-${id}`, section_id: 1, line_distance_m: id * 100, structure_back: '1', structure_ahead: '2', offset_m: 10, phase: 'A', position: null,
  circuit_side: null, subconductor: null, kind: 'full-tension splice', fitting_type: null, barrel_od_mm: 47.6, class: 'sound', held: false, k: 0.6, upper_k: 0.7,
  basis: 'read', figure: true, limit: null, response: null, ...more,
})
const limit = (line_a: number, standing: NonNullable<LineJointJson['limit']>['standing'] = 'in-force') => ({ line_a, mva: 199, standing })
const BAD = { class: 'critical', k: 2.9, upper_k: 3 } as const

const INPUTS = {
  circuit: [1], bbox: null, air: null, wind: null, angle: null, sun: null, load: 'peak' as const, a: null, figure: 'peak' as const, source: null, share: null,
}
const answer = (joints: LineJointJson[], more: object = {}) => answerOf(lineSections([circuitJoints.parse({
  circuit_id: 1, circuit: 'C1', policy_version: 1, joints,
  sections: [{
    id: 1, circuit_id: 1, circuit: 'C1', line_name: null, voltage_kv: 230, name: 'main', from: null, to: null, conductor: 'Drake', subconductors: 1,
    rating_a: 900, rating_emergency_a: null, max_operating_c: 75, elevation_m: null, length_m: 1000, last_load: null,
    expected_peak: { current_a: 546, taken_at: '2026-12-01T00:00:00Z' }, post_contingency: null, day_loads: [], splice_count: joints.length, barrels_od_mm: [47.6],
    barrels_unknown: 0, lon: -114, lat: 47, azimuth_deg: 90, structures: [],
  }],
})], defaultPolicy), { ...INPUTS, ...more } as typeof INPUTS, defaultPolicy)

const lead = (joints: LineJointJson[], rating = true, more: object = {}) => {
  const found = answer(joints, more).lead
  return found && limitText(found, rating, defaultPolicy, 'metric')
}
const texts = (one: LineJointJson) => {
  const [section] = answer([one]).reckoned
  const [reckoned] = section?.joints ?? []
  if (!section || !reckoned) throw new Error('a splice')
  return [allowsText(reckoned, section), besideText(reckoned, section)]
}
/** What a splice of ratio 3 allows on Drake without any limit in force. */
const advisedA = Math.floor(answer([joint(2, BAD)]).lead?.rated?.limit.lineA ?? NaN)

/** Expectations: common practice with limits in force; one figure is shown to operations, and it is the one that was read back. */
describe('a load with a limit in force', () => {
  it('leads with it and has the advised figure after it, in any weather', () => {
    const joints = [joint(1), joint(2, { ...BAD, limit: limit(500) })]
    expect(lead(joints)).toBe(`C1: 500 A per phase, limit in force of splice J-2; advised ${advisedA} A, by splice J-2.`)
    expect(lead(joints, false, { wind: 4.4 })).toBe(`C1: 500 A per phase, limit in force of splice J-2; advised ${advisedA} A, by splice J-2.`)
  })

  it('says by how much the current taken passes it, though nothing passes its temperature', () => {
    const found = answer([joint(1), joint(2, { ...BAD, limit: limit(500) })])
    expect(found.over).toEqual([])
    expect(passedLimitText(found.passedLimits)).toBe('Splice J-2 would pass its limit in force, 500 A, by 46 A.')
    expect(answer([joint(2, { ...BAD, limit: limit(546) })]).passedLimits).toEqual([])
    const two = answer([joint(2, { limit: limit(500) }), joint(3, { limit: limit(300) }), joint(4, { limit: limit(400, 'ask-engineer') }), joint(5, { limit: limit(100, 'proposed') })])
    expect(passedLimitText(two.passedLimits)).toBe('Splice J-3 would pass its limit in force, 300 A, by 246 A, and 2 more limits would be passed: J-2, J-4.')
  })

  it('counts one of a splice that no heat balance is drawn for', () => {
    const found = answer([joint(1), joint(2, { kind: 'wedge', limit: limit(500) })])
    expect(found.passedLimits.map(({ of }) => of.id)).toEqual([2])
    expect(found.lead && leadsWith(found.lead)).toBe('in-force')
  })

  it('leads with the advised figure where that is the lower, and says that it lies below', () => {
    expect(lead([joint(2, { ...BAD, limit: limit(advisedA + 50) })])).toBe(
      `C1: ${advisedA} A per phase, limited by splice J-2 at 93 °C. That is below the limit in force of splice J-2, ${advisedA + 50} A: ask the rating engineer.`)
    expect(texts(joint(2, { ...BAD, limit: limit(advisedA + 50) }))).toEqual([`${advisedA + 50} A, in force`, `advised ${advisedA} A, below it: ask the rating engineer`])
  })

  it('asks the engineer first where it has lapsed', () => {
    expect(lead([joint(2, { ...BAD, limit: limit(500, 'ask-engineer') })])).toBe(
      `C1: ask the rating engineer, for the limit of 500 A of splice J-2 has lapsed. C1: ${advisedA} A per phase, limited by splice J-2 at 93 °C.`)
    expect(texts(joint(2, { ...BAD, limit: limit(500, 'ask-engineer') }))).toEqual(['ask the rating engineer', `the limit of 500 A has lapsed; advised ${advisedA} A`])
  })

  it('is none where it is only proposed or agreed', () => {
    const joints = [joint(2, { ...BAD, limit: limit(500, 'agreed') })]
    expect(lead(joints)).toBe(`C1: ${advisedA} A per phase, limited by splice J-2 at 93 °C.`)
    expect(answer(joints).passedLimits).toEqual([])
    expect(texts(joint(2, { ...BAD, limit: limit(500, 'agreed') }))).toEqual([`${advisedA} A`, 'advised; 500 A is agreed, not in force'])
  })

  it('is the figure of a held splice of which none is advised, so that it no longer may be lower', () => {
    const held = joint(5, { class: 'critical', held: true, k: 3.4, upper_k: 3.6, basis: 'finding', figure: false, limit: limit(500) })
    expect(answer([joint(1), held]).lead).toMatchObject({ mayBeLower: [], inForce: { lineA: 500 } })
    expect(lead([joint(1), held])).toBe('C1: 500 A per phase, limit in force of splice J-5.')
    expect(lead([joint(1), joint(2, { ...BAD, limit: limit(500) }), joint(6, { class: 'urgent', k: 0.65, upper_k: 4, basis: 'unread', figure: false })])).toMatch(
      /^C1: not more than 500 A per phase, limit in force of splice J-2; J-6 is urgent without a ratio to reckon with and may be lower\. Ask the rating engineer\.$/)
  })
})
