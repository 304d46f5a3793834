import type { APIRequestContext, Page } from '@playwright/test'
import { VectorTile } from '@mapbox/vector-tile'
import { PbfReader } from 'pbf'
import { CONDITION_CLASSES } from '@/lib/condition/types'
import { stateJson } from '@/lib/contract/api'
import { spliceList, type SpliceSummary } from '@/lib/contract/contract'
import { expect, test } from './fixtures'

/** The map stands on the page's window while the address asks for tests; as much of it as these tests use. */
interface DrawnFeature { id?: number | string; properties: Record<string, unknown> }
interface TestMap {
  getZoom(): number
  getCenter(): { lng: number; lat: number }
  project(at: [number, number]): { x: number; y: number }
  queryRenderedFeatures(options: { layers: string[] }): DrawnFeature[]
}

const map = (page: Page) => page.locator('[data-network-map]')
const canvas = (page: Page) => page.locator('[data-network-map] canvas')
const settled = (page: Page) => expect(map(page)).toHaveAttribute('data-idle', '1', { timeout: 60_000 })

async function open(page: Page, query = '') {
  await page.goto(`/operations?test${query}`)
  await settled(page)
}

const look = (page: Page) => page.evaluate(() => {
  const shown = (window as unknown as { networkMap: TestMap }).networkMap
  return { zoom: shown.getZoom(), lon: shown.getCenter().lng, lat: shown.getCenter().lat }
})

const drawn = (page: Page, layer: string) => page.evaluate((name) => {
  const shown = (window as unknown as { networkMap: TestMap }).networkMap
  return shown.queryRenderedFeatures({ layers: [name] }).map((f) => ({ id: Number(f.id), properties: f.properties }))
}, layer)

async function pixelAt(page: Page, x: number, y: number): Promise<number[]> {
  return page.evaluate(([px = 0, py = 0]) => {
    const shown = document.querySelector<HTMLCanvasElement>('[data-network-map] canvas')
    const gl = shown?.getContext('webgl2')
    if (!shown || !gl) throw new Error('The map has no canvas.')
    const ratio = shown.width / shown.clientWidth
    const pixel = new Uint8Array(4)
    gl.readPixels(Math.round(px * ratio), shown.height - Math.round(py * ratio), 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel)
    return [...pixel.slice(0, 3)]
  }, [x, y])
}

async function worst(page: Page, query: string): Promise<SpliceSummary> {
  const answer = await page.request.get(`/api/v1/splices?sort=worst&limit=1&${query}`)
  const [splice] = spliceList.parse(await answer.json()).items
  if (!splice) throw new Error(`The demo has no splice for ${query}.`)
  return splice
}

async function countsOfTile(page: Page, path: string): Promise<Record<string, number>> {
  const layers = new VectorTile(new PbfReader(new Uint8Array(await (await page.request.get(path)).body()))).layers
  const counts: Record<string, number> = Object.fromEntries(CONDITION_CLASSES.map((c) => [c, 0]))
  for (const [name, layer] of Object.entries(layers)) {
    for (let i = 0; i < layer.length; i++) {
      const { properties } = layer.feature(i)
      if (name === 'splices') counts[String(properties.class)] = (counts[String(properties.class)] ?? 0) + 1
      else for (const c of CONDITION_CLASSES) counts[c] = (counts[c] ?? 0) + Number(properties[c])
    }
  }
  return counts
}

test.describe('tiles', () => {
  test('count what the state and the list count', async ({ page }) => {
    const state = stateJson.parse(await (await page.request.get('/api/v1/state')).json())
    expect(await countsOfTile(page, '/tiles/splices/0/0/0')).toEqual(state.counts)
    const rest = 'phase=A,unknown&voltage=230'
    const total = async (c: string) =>
      spliceList.parse(await (await page.request.get(`/api/v1/splices?limit=1&class=${c}&${rest}`)).json()).total
    const expected = Object.fromEntries(CONDITION_CLASSES.map((c) => [c, 0]))
    for (const c of ['urgent', 'degraded'] as const) expected[c] = (await total(c)) ?? -1
    expect(await countsOfTile(page, `/tiles/splices/0/0/0?class=urgent,degraded&${rest}`)).toEqual(expected)
  })

  test('are answered by 304 while nothing changed, and never kept for others', async ({ page }) => {
    const first = await page.request.get('/tiles/circuits/7/22/44')
    const { etag, 'cache-control': caching } = first.headers()
    expect(caching).toContain('private')
    const again = await page.request.get('/tiles/circuits/7/22/44', { headers: { 'If-None-Match': etag ?? '' } })
    expect([again.status(), again.headers().etag]).toEqual([304, etag])
    expect((await page.request.get('/tiles/circuits/7/22/44?circuit=1')).headers().etag).not.toBe(etag)
  })

  test('of no place there is are refused', async ({ page }) => {
    for (const path of ['/tiles/splices/3/9/0', '/tiles/splices/-1/0/0', '/tiles/splices/a/0/0', '/tiles/circuits/99/0/0']) {
      expect([path, (await page.request.get(path)).status()]).toEqual([path, 404])
    }
  })
})

test.describe('the map', { tag: '@map' }, () => {
  test('shows the whole network at first, lines and rings, and points to the list for those who cannot see it', async ({ page }) => {
    await open(page)
    const circuits = new Set((await drawn(page, 'circuit')).map((f) => f.id))
    const { counts } = stateJson.parse(await (await page.request.get('/api/v1/state')).json())
    expect(circuits.size).toBeGreaterThanOrEqual(10)
    const rings = await drawn(page, 'splice-clusters')
    const shown = rings.reduce((sum, f) => sum + Number(f.properties.total), 0) + (await drawn(page, 'splice-marks')).length
    expect(shown).toBeGreaterThanOrEqual(0.95 * Object.values(counts).reduce((a, b) => a + b, 0))
    await expect(canvas(page)).toHaveAttribute('aria-label', /list of splices holds the same/)
  })

  test('draws land and water as each theme means them', async ({ page }) => {
    for (const [scheme, land, water] of [['light', [244, 242, 237], [213, 224, 230]], ['dark', [25, 30, 35], [15, 20, 24]]] as const) {
      await page.emulateMedia({ colorScheme: scheme })
      await open(page, '&at=47.3,-124.3,9')
      expect(await pixelAt(page, 60, 300)).toEqual(water)
      expect(await pixelAt(page, 1000, 300)).toEqual(land)
    }
  })

  test('marks an urgent reading whose place is not settled over the splices it may be, in hue of its class, and leads to its review', async ({ page }) => {
    const { unsettled } = stateJson.parse(await (await page.request.get('/api/v1/state')).json())
    const [worstOf] = unsettled
    if (!worstOf) throw new Error('The demo has no urgent reading in review.')
    await open(page, `&at=${worstOf.lat},${worstOf.lon},17`)
    expect((await drawn(page, 'unsettled-marks')).map((f) => [f.id, f.properties.class])).toContainEqual([worstOf.reading_id, worstOf.class])
    await expect(page.getByRole('button', { name: new RegExp(`^${worstOf.class} .*\\+\\d+ place not settled$`) })).toBeVisible()
    const box = await canvas(page).boundingBox()
    await canvas(page).click({ position: { x: (box?.width ?? 0) / 2, y: (box?.height ?? 0) / 2 } })
    await expect(page).toHaveURL(new RegExp(`/intake/review\\?reading=${worstOf.reading_id}`))
  })

  test('opens a ring by coming nearer, and marks stand for single splices', async ({ page }) => {
    await open(page)
    const before = await look(page)
    const [ring] = await page.evaluate(() => {
      const shown = (window as unknown as { networkMap: TestMap }).networkMap
      const { width, height } = document.querySelector('[data-network-map]')?.getBoundingClientRect() ?? { width: 0, height: 0 }
      type Placed = DrawnFeature & { geometry: { coordinates: [number, number] } }
      return (shown.queryRenderedFeatures({ layers: ['splice-clusters'] }) as Placed[])
        .map((f) => shown.project(f.geometry.coordinates))
        .filter((p) => p.x > width / 2 - 260 && p.x < width - 80 && p.y > 80 && p.y < height - 260)
    })
    await canvas(page).click({ position: ring })
    await settled(page)
    await expect.poll(async () => (await look(page)).zoom).toBeGreaterThan(before.zoom + 1.5)
    const splice = await worst(page, 'class=critical')
    await open(page, `&at=${splice.lat},${splice.lon},17`)
    const marks = await drawn(page, 'splice-marks')
    expect(marks.find((f) => f.id === splice.id)?.properties.class).toBe('critical')
  })

  test('is moved, zoomed, picked from and cleared by the keyboard', async ({ page }) => {
    const splice = await worst(page, 'class=urgent')
    await open(page, `&at=${splice.lat},${splice.lon},16`)
    await canvas(page).focus()
    await page.keyboard.press('Enter')
    await expect(page).toHaveURL(/sel=splice-\d+/)
    await page.keyboard.press('Escape')
    await expect(page).not.toHaveURL(/sel=/)
    const before = await look(page)
    await page.keyboard.press('ArrowRight')
    await expect.poll(async () => (await look(page)).lon).toBeGreaterThan(before.lon)
    await page.keyboard.press('-')
    await expect.poll(async () => (await look(page)).zoom).toBeLessThan(before.zoom - 0.5)
  })

  test('asks for tiles of the filter, keeps circuits, and draws nothing that is filtered out', async ({ page }) => {
    const asked = page.waitForRequest((r) => r.url().includes('/tiles/splices/') && decodeURIComponent(r.url()).includes('class=critical'))
    await open(page, '&class=critical')
    await asked
    for (const { properties } of await drawn(page, 'splice-clusters')) expect(properties.total).toBe(properties.critical)
    for (const { properties } of await drawn(page, 'splice-marks')) expect(properties.class).toBe('critical')
    expect((await drawn(page, 'circuit')).length).toBeGreaterThan(0)
  })

  test('marks the selected circuit, and names structures from near', async ({ page }) => {
    const splice = await worst(page, 'class=critical')
    await open(page, `&at=${splice.lat},${splice.lon},13&sel=circuit-${splice.circuit_id}`)
    await expect.poll(async () => new Set((await drawn(page, 'circuit-selected')).map((f) => f.id))).toEqual(new Set([splice.circuit_id]))
    expect((await drawn(page, 'structure-names')).map((f) => f.properties.label)).not.toEqual([])
  })

  test('always names its sources and gives the scale in the units of the user', async ({ page }) => {
    await open(page, '&at=47.6,-114,9')
    await expect(page.getByText(/Natural Earth/)).toBeVisible()
    await expect(page.locator('.maplibregl-ctrl-scale')).toHaveText(/\s(mi|ft)$/)
    await page.getByRole('radio', { name: 'Metric units' }).click()
    await expect(page.locator('.maplibregl-ctrl-scale')).toHaveText(/\sk?m$/)
  })

  test('says where the detail of the basemap ends', async ({ page }) => {
    await open(page, '&at=47.6,-114,8.6')
    await expect(page.getByText(/Basemap detail ends/)).toBeHidden()
    await page.getByRole('button', { name: 'Zoom in' }).click()
    await expect(page.getByText(/Basemap detail ends/)).toBeVisible()
  })

  test.describe('with a basemap out of reach', () => {
    test.use({ expectedErrors: [/404/] })
    const put = async (request: APIRequestContext, basemap: object) => {
      const answer = await request.put('/api/v1/settings', { data: { basemap }, headers: { Authorization: 'Bearer browser-test' } })
      expect(answer.status(), await answer.text()).toBe(200)
    }
    test.beforeEach(({ request, baseURL }) => put(request, { kind: 'style', url: `${baseURL}/no-such-style.json` }))
    test.afterEach(({ request }) => put(request, { kind: 'embedded' }))

    test('falls back to the built-in one and says so quietly', async ({ page }) => {
      await open(page, '&at=47.6,-114,8')
      await expect(page.getByText(/basemap in settings could not be used: it answered 404/)).toBeVisible()
      expect(await drawn(page, 'base-land')).not.toEqual([])
      expect(await drawn(page, 'circuit')).not.toEqual([])
    })
  })
})
