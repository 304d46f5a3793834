import { describe, expect, it } from 'vitest'
import { factsOf, ratiosOf } from '@/components/intake/review/facts'
import { frameOf, sigmaOf } from '@/components/intake/review/frame'
import { reading } from '@/test/fixtures/components/samples'

describe('what a reading says of itself', () => {
  it("stands in the user's units and phase letters, and only what is there", () => {
    const r = reading({
      fields: { side_a_uohm: 53, conductor_uohm: 12, ambient_c: 10, phase: 'B', circuit: 'Elm-Oak 1', crew: 'North' },
    })
    const us = factsOf(r, 'us', { A: '1', B: '2', C: '3' })
    expect(us.measured).toEqual([
      { label: 'Side A', value: '53.0 µΩ' },
      { label: 'Conductor', value: '12.0 µΩ' },
      { label: 'Air', value: '50.0 °F' },
    ])
    expect(us.place).toContainEqual({ label: 'Phase', value: '2' })
    expect(us.rest).toEqual([{ label: 'Crew', value: 'North' }])
  })

  it('divides each side by the conductor: 10 and 53 against 12 read 0.83 and 4.42', () => {
    const ratios = ratiosOf(reading({ fields: { side_a_uohm: 10, side_b_uohm: 53, conductor_uohm: 12 } }))
    expect(ratios.map((r) => [r.side, r.ratio.toFixed(2)])).toEqual([
      ['A', '0.83'],
      ['B', '4.42'],
    ])
  })

  it('gives no ratio without a conductor reading', () => {
    expect(ratiosOf(reading({ fields: { side_a_uohm: 10 } }))).toEqual([])
  })

  it("draws the receiver's accuracy, else that of the platform", () => {
    expect(sigmaOf({ gnss_accuracy_m: 3.03, platform: 'bucket' })).toBeCloseTo(2, 6)
    expect(sigmaOf({ gnss_accuracy_m: null, platform: 'helicopter' })).toBe(15)
    expect(sigmaOf({ gnss_accuracy_m: null, platform: null })).toBe(8)
  })

  it('names what the reading was taken from in words', () => {
    const from = (over: Parameters<typeof reading>[0]) =>
      factsOf(reading(over), 'us', { A: 'A', B: 'B', C: 'C' }).place.find((f) => f.label === 'From')?.value
    expect(from({ platform: 'bucket' })).toBe('bucket truck')
    expect(from({ platform: 'helicopter', position_of: 'platform' })).toBe('helicopter, beside the line')
  })

  it('frames candidates closely, a position without any widely enough to see lines not far off, and nothing where neither is known', () => {
    const candidate = {
      circuit_id: 1, circuit: 'L1', section_id: 1, section: 'main', span_id: 1, structure_back: null, structure_ahead: null, line_distance_m: 0,
      offset_from_structure_m: 0, lon: 10, lat: 0, offset_m: 0, probability: 0.8, splices: [],
    }
    const eastOf = (candidates: (typeof candidate)[]) =>
      frameOf({ reading: reading({ lon: 10, lat: 0 }), cause: null, candidates, urgent: false, notice: null })?.bbox[2]
    expect(eastOf([candidate])).toBeCloseTo(10 + 60 / 111_320, 9)
    expect(eastOf([])).toBeCloseTo(10 + 800 / 111_320, 9)
    expect(frameOf({ reading: reading({ lon: null, lat: null }), cause: null, candidates: [], urgent: false, notice: null })).toBeNull()
  })
})
