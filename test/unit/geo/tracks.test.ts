import { describe, expect, it } from 'vitest'
import { DEFAULT_PLACING, placeReadings, type PointToPlace } from '@/lib/geo'
import { breaks } from '@/lib/geo/place/tracks'
import { at, codes, place, placeOne, splice, walk } from '../../fixtures/geo/double-circuit'
import { beside, reading, sketch, vertices } from '../../fixtures/geo/lines'

/** Metres right of the left circuit, as in the worked example of two parallel circuits. */
const OFFSETS_M = [3.1, 4.6, 2.2, 7.3, 1.0, 6.4, -1.5, 6.9]
const along = (offsetsM: readonly number[], fromM = -6): [number, number][] =>
  offsetsM.map((offsetM, i) => [150 + 330 * i, fromM + offsetM])

describe('readings of one crew along the line', () => {
  it('stay on one circuit although some lie nearer the other', () => {
    const { outcomes, tracks } = place(walk(along(OFFSETS_M)))
    expect(outcomes.map(({ chosen }) => chosen?.circuit)).toEqual(Array(8).fill('Elk'))
    expect(outcomes.every(({ method, probability }) => method === 'track' && probability! > 0.9)).toBe(true)
    expect(tracks).toMatchObject([{ count: 8, matched: true, degreesOfFreedom: 8 }])
  })

  it('each by itself would be a matter for a person', () => {
    for (const [alongM, rightM] of along([6.4, 6.9]))
      expect(placeOne(at(alongM, rightM))).toMatchObject({ state: 'review', method: 'alone' })
  })

  it('keep the other circuit as the runner-up', () => {
    const [first] = place(walk(along(OFFSETS_M))).outcomes
    expect(first!.candidates.map(({ circuit }) => circuit)).toEqual(['Elk', 'Moose'])
    expect(first!.candidates[0]!.probability).toBeGreaterThan(first!.candidates[1]!.probability)
  })

  it('in any order of rows come out the same', () => {
    const points = walk(along(OFFSETS_M))
    const ahead = place(points).outcomes
    const back = place([...points].reverse()).outcomes.reverse()
    expect(back).toEqual(ahead)
  })

  it('that take both circuits in turn are placed each by itself', () => {
    const turns: [number, number][] = Array.from({ length: 40 }, (_, i) => [100 + 70 * i, i % 2 === 0 ? -6 + (i % 5) - 2 : 6 - (i % 3) + 1])
    const { outcomes } = place(walk(turns))
    expect(outcomes.map(({ chosen }) => chosen?.circuit)).toEqual(turns.map((_, i) => (i % 2 === 0 ? 'Elk' : 'Moose')))
    expect(outcomes.every((outcome) => codes(outcome).includes('circuits-in-turn'))).toBe(true)
  })

  it('that do not fit one line by chi-square are placed each by itself', () => {
    // Six readings of one metre's accuracy that wander four metres to either side.
    const { outcomes, tracks } = place(walk(along([4, -4, 4, -4, 4, -4]), { sigmaM: 1 }))
    expect(tracks).toMatchObject([{ matched: false }])
    expect(tracks[0]!.chiSquare).toBeGreaterThan(50)
    expect(outcomes.every((outcome) => codes(outcome).includes('track-residuals') && outcome.method === 'alone')).toBe(true)
  })

  it('without times are placed each by itself', () => {
    const { outcomes, tracks } = place(walk(along(OFFSETS_M)).map(({ takenAtMs: _, ...point }) => point))
    expect(tracks).toEqual([])
    expect(outcomes.filter(({ state }) => state === 'review').length).toBeGreaterThan(0)
  })

  it('fewer than five are no track', () => {
    const { outcomes, tracks } = place(walk(along(OFFSETS_M.slice(0, 4))))
    expect(tracks).toEqual([])
    expect(outcomes.every((outcome) => codes(outcome).includes('track-broken'))).toBe(true)
  })

  it('of another crew, survey or instrument are other tracks', () => {
    const points = walk(along(OFFSETS_M))
    for (const field of ['crew', 'survey', 'instrument'] as const) {
      expect(place([...points, ...points.map((point) => ({ ...point, [field]: 'other' }))]).tracks).toHaveLength(2)
    }
  })

  it('says on which circuits a reading could be that its track put on one', () => {
    const { outcomes } = place(walk(along(OFFSETS_M)))
    const said = outcomes.map(({ reasons }) => reasons.find(({ code }) => code === 'circuit-by-track')?.values)
    // 7.3 m right of Elk is 4.7 m left of Moose, 12 m apart; −1.5 m is nobody else's.
    expect(said[3]).toEqual({ circuit: 'Elk', others: 'Moose' })
    expect(said[6]).toBeUndefined()
  })

  describe('among which some name their circuit and others leave it blank', () => {
    const MIDWAY = along(Array.from({ length: 12 }, (_, i) => 6 + (i % 3) - 1)).map(([alongM, rightM]): [number, number] => [alongM / 2, rightM])
    const alternating = (fields: Partial<PointToPlace>) =>
      walk(MIDWAY, { phase: 'A', ...fields }).map((point, i) => (i % 2 === 0 ? { ...point, circuit: 'Elk' } : point))

    it.each([[{}], [{ crew: 'one' }], [{ sigmaM: 1.5 }], [{ sigmaM: 10 }]])('the blank ones are not on it by that, with %j', (fields) => {
      const { outcomes } = place(alternating(fields))
      outcomes.forEach((outcome, i) => {
        if (i % 2 === 0) expect(outcome).toMatchObject({ state: 'placed', chosen: { circuit: 'Elk' } })
        else expect([outcome.state, outcome.reasons[0]!.code]).toEqual(['review', 'low-probability'])
      })
    })

    it('one that names it does not speak for the others', () => {
      const { outcomes } = place(walk(MIDWAY).map((point, i) => (i === 2 ? { ...point, circuit: 'Moose' } : point)))
      expect(outcomes.map(({ state }) => state)).toEqual(MIDWAY.map((_, i) => (i === 2 ? 'placed' : 'review')))
    })

    it('nor does one that names a splice or its side', () => {
      const known = [splice(1, 'Elk', 405, { label: 'E-1' })]
      for (const fields of [{ spliceLabel: 'E-1' }, { circuitSide: 'left' }]) {
        const { outcomes } = place(walk(MIDWAY).map((point, i) => (i === 2 ? { ...point, ...fields } : point)), known)
        expect(outcomes.filter(({ state }) => state === 'placed')).toHaveLength(1)
      }
    })

    it('the blank ones find the other circuit where their own positions say so', () => {
      const places = MIDWAY.map(([alongM], i): [number, number] => [alongM, i % 2 === 0 ? -7 : 7])
      const { outcomes } = place(walk(places).map((point, i) => (i % 2 === 0 ? { ...point, circuit: 'Elk' } : point)))
      expect(outcomes.map(({ chosen }) => chosen?.circuit)).toEqual(places.map((_, i) => (i % 2 === 0 ? 'Elk' : 'Moose')))
    })

    it('of a platform they share what one names, and say what their own position leaves open', () => {
      const { outcomes } = place(alternating({ sigmaM: 10, positionOf: 'platform', platform: 'helicopter' }))
      expect(outcomes.every(({ state, chosen }) => state === 'placed' && chosen?.circuit === 'Elk')).toBe(true)
      expect(codes(outcomes[1]!)).toContain('circuit-by-track')
      expect(codes(outcomes[0]!)).not.toContain('circuit-by-track')
    })
  })

  it('a stray position among them goes to a person and spoils no other', () => {
    const places = along(OFFSETS_M)
    places[3] = [places[3]![0], 35]
    const { outcomes } = place(walk(places))
    expect(outcomes.map(({ state }) => state)).toEqual(['placed', 'placed', 'placed', 'review', 'placed', 'placed', 'placed', 'placed'])
  })
})

describe('a platform beside the line', () => {
  const LINE = vertices(-110, 46, [90, 3_000])
  const single = sketch({ circuit: 'Elk', lonLat: LINE })
  const flight = (rightM: number, wobbleM: readonly number[]) =>
    wobbleM.map((offM, i) =>
      reading({
        index: i,
        ...beside(LINE, 200 + 150 * i, rightM + offM),
        sigmaM: 10,
        positionOf: 'platform',
        platform: 'helicopter',
        takenAtMs: 1e12 + i * 8_000,
      }),
    )
  const WOBBLE = [3, -6, 8, -2, 5, -9, 1, 0]

  it('60 m off is followed, and its offset is estimated once for the track', () => {
    const { outcomes, tracks } = placeReadings(single, flight(60, WOBBLE), [], [])
    expect(outcomes.every(({ state, method }) => state === 'placed' && method === 'track')).toBe(true)
    expect(tracks[0]!.estimatedOffsetM).toBeCloseTo(60, 0)
    expect(tracks[0]!.degreesOfFreedom).toBe(7)
    expect(codes(outcomes[0]!)).toContain('track-offset')
  })

  it('is not taken for the fitting itself: the same positions of a target are out of reach', () => {
    const targets = flight(60, WOBBLE).map((point) => ({ ...point, positionOf: 'target' as const }))
    expect(placeReadings(single, targets, [], []).outcomes.every((outcome) => codes(outcome).includes('nothing-in-reach'))).toBe(true)
  })

  it('cannot tell two circuits of one corridor apart, since any offset may be its own', () => {
    const places: [number, number][] = Array.from({ length: 8 }, (_, i) => [200 + 150 * i, 40 + WOBBLE[i]!])
    const { outcomes } = place(walk(places, { sigmaM: 10, positionOf: 'platform', platform: 'helicopter' }))
    expect(outcomes.every(({ state }) => state === 'review')).toBe(true)
    const declared = place(walk(places, { sigmaM: 10, positionOf: 'platform', platform: 'helicopter', circuit: 'Moose' }))
    expect(declared.outcomes.every(({ state, chosen }) => state === 'placed' && chosen?.circuit === 'Moose')).toBe(true)
  })
})

describe('a track breaks', () => {
  const from = reading({ lon: -110, lat: 46, takenAtMs: Date.UTC(2024, 5, 3, 17), platform: 'helicopter' })
  const then = (minutes: number, lengthM: number, platform = 'helicopter') => {
    const [, , lon, lat] = vertices(-110, 46, [90, lengthM])
    return reading({ lon: lon!, lat: lat!, takenAtMs: from.takenAtMs! + minutes * 60_000, platform })
  }
  const onGround = { ...from, platform: 'ground' }

  it('for aircraft after 10 minutes or 2 km', () => {
    expect(breaks(from, then(9.9, 1_900), DEFAULT_PLACING)).toBe(false)
    expect(breaks(from, then(10.1, 100), DEFAULT_PLACING)).toBe(true)
    expect(breaks(from, then(1, 2_100), DEFAULT_PLACING)).toBe(true)
  })

  it('for ground crews not after a long drive, but where nobody could have driven', () => {
    expect(breaks(onGround, then(90, 30_000, 'ground'), DEFAULT_PLACING)).toBe(false)
    expect(breaks(onGround, then(1, 2_200, 'ground'), DEFAULT_PLACING)).toBe(true)
    expect(breaks(onGround, then(0, 10, 'ground'), DEFAULT_PLACING)).toBe(false)
  })

  it('for ground crews at a change of day by their own sun, not at midnight UTC', () => {
    const evening = { ...onGround, takenAtMs: Date.UTC(2024, 5, 3, 23, 50) }
    expect(breaks(evening, { ...evening, takenAtMs: Date.UTC(2024, 5, 4, 0, 20) }, DEFAULT_PLACING)).toBe(false)
    expect(breaks(evening, { ...evening, takenAtMs: Date.UTC(2024, 5, 4, 15) }, DEFAULT_PLACING)).toBe(true)
  })
})
