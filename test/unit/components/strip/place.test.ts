import { describe, expect, it } from 'vitest'
import { layOut } from '@/components/strip/axis'
import { boxOfStretch, coursesOf, stretchInBox } from '@/components/strip/place'
import { circuitStrip } from '@/lib/contract/strip'

const span = (id: number, start_m: number, end_m: number, lon_lat: number[]) => (
  { span_id: id, section_id: 1, section: 'main', structure_back: null, structure_ahead: null, start_m, end_m, seen: [], lon_lat })

/** 10 km east along the parallel, with a shape point in the second span, then 5 km north. */
const strip = circuitStrip.parse({
  circuit_id: 1, circuit: 'X', line_name: null, splices: [], beside: [], crossings: [],
  sections: [{ id: 1, name: 'main', from: null, to: null, start_m: 0, end_m: 15_000, structures: [] }],
  spans: [span(1, 0, 5_000, [-100, 45, -99.95, 45]), span(2, 5_000, 10_000, [-99.95, 45, -99.91, 45, -99.9, 45]), span(3, 10_000, 15_000, [-99.9, 45, -99.9, 45.05])],
})
const courses = coursesOf(strip, layOut(strip.sections))

describe('the strip and the map', () => {
  it('show the same stretch: what a box holds of the line, and the box that holds it', () => {
    expect(stretchInBox(courses, [-101, 44, -99, 46])).toEqual({ fromM: 0, toM: 15_000 })
    const part = stretchInBox(courses, [-99.97, 44.99, -99.93, 45.01])
    expect(part?.fromM).toBeCloseTo(3_000, 6)
    expect(part?.toM).toBeCloseTo(7_000, 6)
    expect(boxOfStretch(courses, { fromM: 3_000, toM: 7_000 })?.map((deg) => Number(deg.toFixed(6)))).toEqual([-99.97, 45, -99.93, 45])
  })

  it('hold from the first place in view to the last where the line leaves between', () => {
    const ends = stretchInBox(courses, [-99.92, 44.9, -99.85, 45.02])
    expect(ends?.fromM).toBeCloseTo(8_000, 6)
    expect(ends?.toM).toBeCloseTo(12_000, 6)
  })

  it('a box beside the line holds nothing of it', () => {
    expect(stretchInBox(courses, [-98, 44, -97, 46])).toBeNull()
    expect(boxOfStretch(courses, { fromM: 20_000, toM: 21_000 })).toBeNull()
  })
})
