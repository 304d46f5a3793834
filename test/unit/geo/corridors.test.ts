import { describe, expect, it } from 'vitest'
import { corridorsOf, type StructureInCommon } from '@/lib/geo'

/** One section a circuit, its number that of the circuit; structures 300 m apart from line distance `fromM` and `besideFromM` on, `spans` of them. */
function together(circuitId: number, fromM: number, besideCircuitId: number, besideFromM: number, spans: number, backwards = false): StructureInCommon[] {
  return Array.from({ length: spans + 1 }, (_, i): StructureInCommon[] => {
    const [ours, theirs] = [fromM + 300 * i, besideFromM + 300 * (backwards ? spans - i : i)]
    return [
      { circuitId, besideCircuitId, sectionId: circuitId, lineDistanceM: ours, besideSectionId: besideCircuitId, besideLineDistanceM: theirs },
      { circuitId: besideCircuitId, besideCircuitId: circuitId, sectionId: besideCircuitId, lineDistanceM: theirs, besideSectionId: circuitId, besideLineDistanceM: ours },
    ]
  }).flat()
}

const lengths = (...lengthsM: number[]) => new Map(lengthsM.map((lengthM, i) => [i + 1, lengthM]))
const idsOf = (corridors: ReturnType<typeof corridorsOf>) => corridors.map(({ circuits }) => circuits.map(({ circuitId }) => circuitId))

describe('circuits of one corridor', () => {
  it('hang on the same structures all along, whichever way each is counted', () => {
    for (const backwards of [false, true]) {
      expect(corridorsOf(lengths(3000, 3000, 3000), together(1, 0, 2, 0, 10, backwards))).toEqual([{
        throughout: true, circuits: [{ circuitId: 1, lengthM: 3000, togetherM: 3000 }, { circuitId: 2, lengthM: 3000, togetherM: 3000 }],
      }])
    }
  })

  it('may do so in part: each then has the metres that it runs with another', () => {
    // 12 spans of a line of 6 km and of one of 4 km that begins at the ninth structure of the first.
    const [corridor] = corridorsOf(lengths(6000, 4000), together(1, 2400, 2, 0, 12))
    expect(corridor).toEqual({ throughout: false, circuits: [{ circuitId: 1, lengthM: 6000, togetherM: 3600 }, { circuitId: 2, lengthM: 4000, togetherM: 3600 }] })
    // A short one wholly on the structures of a long one is together; the long one is not.
    expect(corridorsOf(lengths(40_000, 1200), together(1, 9000, 2, 0, 4))).toMatchObject([{ throughout: false, circuits: [{ togetherM: 1200 }, { togetherM: 1200 }] }])
  })

  it('are not made by a few spans in common at a substation, nor by structures at which they cross', () => {
    expect(corridorsOf(lengths(3000, 3000), together(1, 0, 2, 0, 2))).toEqual([]) // 600 m of 3 km: under a quarter
    expect(corridorsOf(lengths(3000, 3000), together(1, 0, 2, 0, 3))).toHaveLength(1) // 900 m
    expect(corridorsOf(lengths(3000, 3000), together(1, 1500, 2, 900, 0))).toEqual([])
    // Both leave one structure and meet again at another, one of them by a detour.
    const meeting = [...together(1, 0, 2, 0, 0), ...together(1, 1500, 2, 2700, 0)]
    expect(corridorsOf(lengths(3000, 3000), meeting)).toEqual([])
  })

  it('are joined through a third, and metres with two others count once', () => {
    const common = [...together(1, 0, 2, 0, 5), ...together(2, 900, 3, 0, 7)]
    const [corridor, ...others] = corridorsOf(lengths(3000, 3000, 2100, 5000), common)
    expect(others).toEqual([])
    expect(corridor?.circuits.map(({ circuitId, togetherM }) => [circuitId, togetherM])).toEqual([[1, 1500], [2, 3000], [3, 2100]])
    expect(corridor?.throughout).toBe(false)
    // Four on the same structures.
    const four = [1, 2, 3, 4].flatMap((a) => [1, 2, 3, 4].flatMap((b) => (a < b ? together(a, 0, b, 0, 10) : [])))
    expect(corridorsOf(lengths(3000, 3000, 3000, 3000), four)).toMatchObject([{ throughout: true, circuits: [{ togetherM: 3000 }, {}, {}, { togetherM: 3000 }] }])
  })

  it('stay apart where they have nothing to do with each other', () => {
    const common = [...together(1, 0, 2, 0, 10), ...together(3, 0, 4, 0, 10)]
    expect(idsOf(corridorsOf(lengths(3000, 3000, 3000, 3000), common))).toEqual([[1, 2], [3, 4]])
    // What has no length on record, or is not seen, joins nothing.
    expect(corridorsOf(new Map([[1, 3000]]), together(1, 0, 2, 0, 10))).toEqual([])
    expect(corridorsOf(lengths(), [])).toEqual([])
  })
})
