import { describe, expect, it } from 'vitest'
import { locate, placeReadings, snapPosition, type KnownSplice } from '@/lib/geo'
import { at, codes, network, place, placeOne } from '../../fixtures/geo/double-circuit'
import { beside, reading, sketch, vertices } from '../../fixtures/geo/lines'

describe('positions that are none', () => {
  it.each([
    ['no longitude and latitude', {}, 'no-position'],
    ['half a position', { lon: -110 }, 'no-position'],
    ['no number', { lon: Number.NaN, lat: 46 }, 'no-position'],
    ['off the earth', { lon: -110, lat: 460 }, 'no-position'],
    ['0, 0, a receiver without a fix', { lon: 0, lat: 0 }, 'position-zero'],
  ])('%s: review, and never a place', (_, fields, code) => {
    const outcome = placeOne(reading(fields))
    expect(outcome).toMatchObject({ state: 'review', reasons: [{ code }], candidates: [] })
  })

  it('0, 0 with a declared place is placed by it, and says so', () => {
    const outcome = placeOne(reading({ lon: 0, lat: 0, circuit: 'Elk', structureBack: '3', offsetFromStructureM: 10 }))
    expect(outcome.state).toBe('placed')
    expect(codes(outcome)).toContain('position-zero')
  })

  it('out of reach of every line: review with the radius that was searched', () => {
    expect(placeOne(at(700, 300))).toMatchObject({ state: 'review', reasons: [{ code: 'nothing-in-reach', values: { reachM: 30 } }] })
    expect(placeOne(at(700, 300, { sigmaM: 20 })).reasons[0]!.values).toEqual({ reachM: 60 })
  })
})

describe('nothing is dropped', () => {
  it('every point has an outcome under its own index, also without a network', () => {
    const points = [at(700, -6, { index: 7 }), reading({ index: 3 }), at(100, 400, { index: 12 })]
    expect(place(points).outcomes.map(({ index }) => index)).toEqual([7, 3, 12])
    expect(placeReadings(sketch(), points, [], []).outcomes.map(({ state }) => state)).toEqual(['review', 'review', 'review'])
    expect(place([])).toEqual({ outcomes: [], tracks: [], newSplices: [] })
  })

  it('sigma of zero or less does no harm', () => {
    expect(placeOne(at(700, -6, { sigmaM: 0 }))).toMatchObject({ state: 'placed', chosen: { circuit: 'Elk' } })
  })
})

describe('circuits on shared structures whose sides nobody knows', () => {
  const line = vertices(-110, 46, [90, 600])
  const shared = (offsetM?: number) =>
    sketch({ circuit: 'Elk', lonLat: line, ...(offsetM !== undefined && { lateralOffsetM: offsetM }) }, { circuit: 'Moose', lonLat: line })

  it.each([undefined, -6])('cannot be told apart by position (offset of one %s)', (offsetM) => {
    const [outcome] = placeReadings(shared(offsetM), [reading({ ...beside(line, 300, -6), sigmaM: 1 })], [], []).outcomes
    expect(outcome!.state).toBe('review')
    expect(codes(outcome!)).toContain('shared-structures-no-offset')
    expect(outcome!.candidates.map(({ circuit }) => circuit).sort()).toEqual(['Elk', 'Moose'])
  })

  it('can where the reading declares its circuit', () => {
    const [outcome] = placeReadings(shared(), [reading({ ...beside(line, 300, 0), circuit: 'Moose' })], [], []).outcomes
    expect(outcome).toMatchObject({ state: 'placed', chosen: { circuit: 'Moose' } })
  })

  it('do not include lines that merely cross', () => {
    const crossing = sketch({ circuit: 'Elk', lonLat: line }, { circuit: 'Wolf', lonLat: vertices(-109.9961, 45.9982, [0, 400]) })
    const { outcomes } = placeReadings(crossing, [reading(beside(line, 305, 0))], [], [])
    expect(codes(outcomes[0]!)).not.toContain('shared-structures-no-offset')
  })
})

describe('across the 180th meridian', () => {
  const line = vertices(179.995, 52, [90, 300], [90, 300], [90, 300])
  const pacific = sketch({ circuit: 'Dateline', lonLat: line })

  it.each([100, 330, 345, 500, 800])('a reading %i m along the line is placed there', (alongM) => {
    const position = beside(line, alongM, 3)
    const [outcome] = placeReadings(pacific, [reading(position)], [], []).outcomes
    expect(outcome!.state).toBe('placed')
    expect(outcome!.chosen!.lineDistanceM).toBeCloseTo(alongM, 1)
    expect(outcome!.chosen!.offsetM).toBeCloseTo(3, 1)
    expect(Math.abs(outcome!.chosen!.lon)).toBeLessThanOrEqual(180)
  })

  it('a track follows the line over it', () => {
    const points = [50, 200, 330, 350, 500, 700].map((alongM, i) =>
      reading({ index: i, ...beside(line, alongM, i % 2), takenAtMs: 1e12 + i * 600_000 }),
    )
    expect(placeReadings(pacific, points, [], []).tracks).toMatchObject([{ count: 6, matched: true }])
  })
})

describe('taps', () => {
  const main = vertices(-110, 46, [90, 400], [90, 400])
  const tap = vertices(main[2]!, main[3]!, [0, 400])
  const circuit = sketch({ circuit: 'Elk', lonLat: main }, { circuit: 'Elk', section: 'Lodge tap', lonLat: tap })

  it('are sections of their own, with line distance from their own end', () => {
    const [outcome] = placeReadings(circuit, [reading(beside(tap, 250, 2))], [], []).outcomes
    expect(outcome).toMatchObject({ state: 'placed', chosen: { circuit: 'Elk', section: 'Lodge tap' } })
    expect(outcome!.chosen!.lineDistanceM).toBeCloseTo(250, 1)
  })

  it('a crew may turn into one without breaking its track', () => {
    const places = [
      ...[100, 200, 300, 390].map((alongM) => beside(main, alongM, 1)),
      ...[60, 150, 250, 350].map((alongM) => beside(tap, alongM, -1)),
    ]
    const points = places.map((position, i) => reading({ index: i, ...position, takenAtMs: 1e12 + i * 600_000 }))
    const { outcomes } = placeReadings(circuit, points, [], [])
    expect(outcomes.map(({ chosen }) => chosen?.section)).toEqual([...Array<string>(4).fill('main'), ...Array<string>(4).fill('Lodge tap')])
  })
})

describe('a line that comes by twice', () => {
  // A hairpin: out, 24 m across, and back.
  const hairpin = vertices(-110, 46, [90, 600], [0, 24], [270, 600])
  const bend = sketch({ circuit: 'Elk', lonLat: hairpin })

  it('offers both places, and readings in order tell which is meant', () => {
    const lone = placeReadings(bend, [reading(beside(hairpin, 300, -12))], [], []).outcomes[0]!
    expect(lone.candidates).toHaveLength(2)
    expect(lone.state).toBe('review')
    const points = [100, 200, 300, 400, 500].map((alongM, i) =>
      reading({ index: i, ...beside(hairpin, alongM, i === 2 ? -12 : -1), takenAtMs: 1e12 + i * 600_000 }),
    )
    const middle = placeReadings(bend, points, [], []).outcomes[2]!
    expect(middle.chosen!.lineDistanceM).toBeCloseTo(300, 0)
  })
})

describe('people', () => {
  it('who drop a pin get the nearest place on each line, snapped', () => {
    const { lon, lat } = beside(vertices(-110, 46, [90, 3_000]), 700, -2)
    const places = snapPosition(network, lon, lat)
    expect(places.map(({ circuit }) => circuit)).toEqual(['Elk', 'Moose'])
    expect(places[0]).toMatchObject({ structureBack: '3', structureAhead: '4' })
    expect(snapPosition(network, lon, lat, { circuitId: 2 })).toHaveLength(1)
    expect(snapPosition(network, lon, lat, { radiusM: 1 })).toEqual([])
  })

  it('who give a line distance get the place on the conductor', () => {
    const place = locate(network, 1, 700)!
    expect(place).toMatchObject({ circuit: 'Elk', structureBack: '3', lineDistanceM: 700 })
    expect(snapPosition(network, place.lon, place.lat)[0]!.offsetM).toBeCloseTo(0, 2)
    expect(locate(network, 1, 3_100)).toBeUndefined()
    expect(locate(network, 99, 10)).toBeUndefined()
  })
})

it('splices of sections outside the network are left alone', () => {
  const lost: KnownSplice = { spliceId: 1, circuitId: 9, sectionId: 9, spanId: 9, lineDistanceM: 700, label: 'X' }
  expect(placeOne(at(700, -6, { sigmaM: 1, spliceLabel: 'X' }), [lost]).spliceId).toBeUndefined()
})
