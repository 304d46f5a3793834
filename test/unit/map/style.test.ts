import { validateStyleMin } from '@maplibre/maplibre-gl-style-spec'
import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Theme } from '@/components/map/class-colours'
import { loadBasemap } from '@/components/map/style/load-basemap'
import { embeddedBasemap, networkStyle, tilePath } from '@/components/map/style/make-style'
import { operatorLayers } from '@/components/map/style/operator-layers'
import { PLACEMENT, SELECTED } from '@/components/map/style/overlay-layers'

const ORIGIN = 'http://map.test'
const THEMES: Theme[] = ['light', 'dark']
const styleOf = (theme: Theme) => networkStyle(embeddedBasemap(ORIGIN, theme), { origin: ORIGIN, theme, filter: {}, dataVersion: 3, nowYear: 2026 })

describe('the map style', () => {
  it.each(THEMES)('is a valid style in %s', (theme) => {
    expect(validateStyleMin(styleOf(theme)).map((e) => e.message)).toEqual([])
  })

  it('asks nobody but its own origin', () => {
    const addresses = JSON.stringify(styleOf('light')).match(/https?:\/\/[^"/]+/g) ?? []
    expect(addresses.length).toBeGreaterThan(3)
    expect(new Set(addresses)).toEqual(new Set([ORIGIN]))
  })

  it('draws ground, then lines, then names, then marks, then the selection', () => {
    const ids = styleOf('light').layers.map((l) => l.id)
    const order = [
      'base-land',
      'right-of-way',
      'circuit-casing',
      'circuit',
      'base-places',
      'structures',
      'splice-clusters',
      'splice-marks',
      'selected-ring',
    ]
    expect(order.map((id) => ids.indexOf(id))).toEqual(order.map((id) => ids.indexOf(id)).sort((a, b) => a - b))
    expect(ids).toEqual(expect.arrayContaining(order))
  })

  it('has a place for the selection and for a placement', () => {
    expect(Object.keys(styleOf('dark').sources)).toEqual(expect.arrayContaining([SELECTED, PLACEMENT]))
  })
})

describe('tile addresses', () => {
  it('carry the filter and the version of the store', () => {
    expect(tilePath('splices', { classes: ['urgent', 'critical'], phases: ['A'] }, 7)).toBe(
      '/tiles/splices/{z}/{x}/{y}?class=urgent,critical&phase=A&v=7',
    )
  })

  it('leave out of circuits what circuits do not know, so that their tiles stay while people filter', () => {
    expect(tilePath('circuits', { classes: ['urgent'], phases: ['A'], voltagesKv: [230] }, 7)).toBe(
      '/tiles/circuits/{z}/{x}/{y}?voltage=230&v=7',
    )
  })
})

describe("an operator's basemap", () => {
  afterEach(() => {
    vi.unstubAllGlobals()
  })
  const answer = (body: unknown, status = 200) => {
    vi.stubGlobal('fetch', () => Promise.resolve(new Response(JSON.stringify(body), { status })))
  }
  const load = () => loadBasemap({ kind: 'style', url: '/maps/style.json' }, 'light', ORIGIN)

  it('is used as it is, with the network above its ground and below its names', async () => {
    answer({
      version: 8,
      sources: { osm: { type: 'vector', tiles: ['http://tiles.test/{z}/{x}/{y}'] } },
      layers: [
        { id: 'ground', type: 'background' },
        { id: 'town', type: 'symbol', source: 'osm', 'source-layer': 'place' },
      ],
    })
    const loaded = await load()
    expect(loaded).toMatchObject({ embedded: false, failure: null })
    const style = networkStyle(loaded.basemap, { origin: ORIGIN, theme: 'light', filter: {}, dataVersion: 1, nowYear: 2026 })
    const ids = style.layers.map((l) => l.id)
    expect(ids.indexOf('ground')).toBeLessThan(ids.indexOf('circuit'))
    expect(ids.indexOf('town')).toBeGreaterThan(ids.indexOf('circuit'))
    expect(validateStyleMin(style).map((e) => e.message)).toEqual([])
  })

  it.each([
    ['does not exist', {}, 404, 'it answered 404'],
    ['is no style', { hello: 'world' }, 200, 'it is not a version 8 style'],
  ])('that %s gives way to the built-in one, with the reason', async (_, body, status, reason) => {
    answer(body, status)
    const loaded = await load()
    expect(loaded).toMatchObject({ embedded: true, failure: reason })
    expect(Object.keys(loaded.basemap.style.sources)).toEqual(['base'])
  })

  it('that cannot be reached gives way too', async () => {
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('Failed to fetch')))
    expect(await load()).toMatchObject({ embedded: true, failure: 'Failed to fetch' })
    expect(await loadBasemap({ kind: 'pmtiles', url: '/maps/none.pmtiles' }, 'dark', ORIGIN)).toMatchObject({
      embedded: true,
      failure: 'Failed to fetch',
    })
  })

  it.each([
    ['Protomaps', ['earth', 'water', 'roads', 'places', 'boundaries', 'buildings', 'landcover']],
    ['OpenMapTiles', ['water', 'waterway', 'landcover', 'park', 'transportation', 'building', 'boundary', 'place']],
  ])('in the %s layout is drawn muted, as a valid style', (_, names) => {
    for (const theme of THEMES) {
      const layers = operatorLayers(names, theme)
      const style = {
        version: 8 as const,
        sources: { base: { type: 'vector' as const, url: 'pmtiles://x' } },
        glyphs: `${ORIGIN}/{fontstack}/{range}`,
        layers: [...(layers?.ground ?? []), ...(layers?.names ?? [])],
      }
      expect(style.layers.length).toBeGreaterThan(5)
      expect(validateStyleMin(style).map((e) => e.message)).toEqual([])
    }
  })

  it('in a layout nobody knows is not guessed at', () => {
    expect(operatorLayers(['alpha', 'beta'], 'light')).toBeUndefined()
  })
})
