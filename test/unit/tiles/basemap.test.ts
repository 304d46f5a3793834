import { mkdtemp, readFile, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PMTiles } from 'pmtiles'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildBasemap } from '@/lib/launch/build-basemap'
import { placeFeatures } from '@/lib/tiles/basemap/places'
import { smoothWater } from '@/lib/tiles/basemap/smooth'
import { decode } from './world'

describe('the embedded basemap', () => {
  let dir = ''
  let reader: PMTiles
  beforeAll(async () => {
    dir = await mkdtemp(join(tmpdir(), 'spanledger-basemap-'))
    const built = await buildBasemap(dir)
    expect(built.built).toBe(true)
    const bytes = Uint8Array.from(await readFile(join(dir, 'basemap.pmtiles')))
    reader = new PMTiles({ getKey: () => 'basemap', getBytes: (o, n) => Promise.resolve({ data: bytes.buffer.slice(o, o + n) }) })
  }, 120_000)
  afterAll(() => rm(dir, { recursive: true, force: true }))

  const layer = async (z: number, x: number, y: number, name: string) =>
    decode(new Uint8Array((await reader.getZxy(z, x, y))?.data ?? []), name)

  it('holds land, water, borders and towns of the northern Rockies', async () => {
    const [places, names] = [await layer(7, 23, 45, 'places'), await layer(7, 23, 44, 'names')]
    expect(places.map((f) => f.properties.name)).toContain('Missoula')
    expect(names.map((f) => f.properties.name)).toContain('Flathead Lake')
    for (const name of ['land', 'counties', 'states']) expect((await layer(7, 23, 45, name)).length).toBeGreaterThan(0)
    expect((await layer(7, 23, 44, 'lakes')).length).toBeGreaterThan(0)
  })

  it('shows land at every zoom from the whole world down', async () => {
    for (let z = 0; z <= 7; z++)
      expect((await layer(z, Math.floor(2 ** z * 0.183), Math.floor(2 ** z * 0.352), 'land')).length).toBeGreaterThan(0)
  })

  it('names its sources, as their licences ask', async () => {
    expect(await reader.getMetadata()).toMatchObject({
      attribution: expect.stringMatching(/Natural Earth.*Census.*GeoNames.*CC BY 4\.0/) as string,
    })
  })

  it('stands beside the worker and the fonts that the map asks for', async () => {
    const files = [
      'maplibre/maplibre-gl-worker.mjs',
      'fonts/noto-sans-latin-400-normal.woff2',
      'fonts/noto-sans-latin-ext-600-normal.woff2',
    ]
    for (const file of files) expect((await stat(join(dir, file))).size).toBeGreaterThan(1000)
  })

  it('is not built again from the same packages', async () => {
    expect(await buildBasemap(dir)).toMatchObject({ built: false })
  })
})

describe('names of places', () => {
  const city = (name: string, population: number, lon: number, lat: number, featureCode = 'PPLA') => ({
    name,
    population,
    featureCode,
    country: 'XX',
    loc: { coordinates: [lon, lat] as [number, number] },
  })
  const from = (cities: ReturnType<typeof city>[]) =>
    Object.fromEntries(placeFeatures(cities, 2, 7).map((f) => [f.properties?.name, f.properties?.from]))

  it('give way to larger neighbours until there is room', () => {
    const zooms = from([city('Small', 1000, 0.3, 0), city('Large', 500_000, 0, 0)])
    expect(zooms.Large).toBe(2)
    expect(zooms.Small).toBeGreaterThan(6)
  })

  it('stand from far in thinly settled land, whatever their size', () => {
    expect(from([city('Lonely', 1000, 60, 60), city('Large', 500_000, 0, 0)]).Lonely).toBe(2)
  })

  it('leave out parts of towns', () => {
    expect(from([city('Quarter', 90_000, 0, 0, 'PPLX')])).toEqual({})
  })
})

describe('water', () => {
  it('loses its corners and stays closed', () => {
    const square = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
      [0, 0],
    ]
    const smooth = smoothWater({ type: 'Feature', properties: {}, geometry: { type: 'Polygon', coordinates: [square] } })
    const ring = smooth.geometry.type === 'Polygon' ? (smooth.geometry.coordinates[0] ?? []) : []
    expect(ring[0]).toEqual(ring.at(-1))
    expect(ring).not.toContainEqual([0, 0])
    for (const [x = 0, y = 0] of ring) expect(x >= 0 && x <= 1 && y >= 0 && y <= 1).toBe(true)
  })

  it('keeps the ends of a river', () => {
    const river = smoothWater({
      type: 'Feature',
      properties: {},
      geometry: {
        type: 'LineString',
        coordinates: [
          [0, 0],
          [1, 2],
          [2, 0],
        ],
      },
    })
    const line = river.geometry.type === 'LineString' ? river.geometry.coordinates : []
    expect([line[0], line.at(-1)]).toEqual([
      [0, 0],
      [2, 0],
    ])
  })
})
