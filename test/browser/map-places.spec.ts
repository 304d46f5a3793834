import type { Page } from '@playwright/test'
import { searchResult } from '@/lib/contract/api'
import { spliceList, type SpliceSummary } from '@/lib/contract/contract'
import { expect, test } from './fixtures'

interface TestMap {
  getZoom(): number
  getCenter(): { lng: number; lat: number }
  queryRenderedFeatures(options: { layers: string[] }): { properties: Record<string, unknown> }[]
}

const settled = (page: Page) => expect(page.locator('[data-network-map]')).toHaveAttribute('data-idle', '1', { timeout: 60_000 })
const row = (page: Page, n: number) => page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option').nth(n)
const found = (page: Page) => page.getByRole('listbox', { name: 'Found' }).getByRole('option')
const param = (page: Page, name: string) => new URL(page.url()).searchParams.get(name)

async function worst(page: Page): Promise<SpliceSummary> {
  const [splice] = spliceList.parse(await (await page.request.get('/api/v1/splices?sort=worst&limit=1')).json()).items
  if (!splice) throw new Error('The demo has no splices.')
  return splice
}

/** Where the map itself stands, whatever the address says. */
const stands = (page: Page) => page.evaluate(() => {
  const shown = (window as unknown as { networkMap?: TestMap }).networkMap
  return shown ? { zoom: shown.getZoom(), lon: shown.getCenter().lng, lat: shown.getCenter().lat } : null
})

async function expectMapAt(page: Page, place: { lon: number; lat: number }, leastZoom: number) {
  await expect.poll(async () => {
    const at = await stands(page)
    return at !== null && Math.abs(at.lon - place.lon) < 1e-4 && Math.abs(at.lat - place.lat) < 1e-4 && at.zoom >= leastZoom
  }, { timeout: 60_000 }).toBe(true)
}

const marked = (page: Page) => page.evaluate(() =>
  (window as unknown as { networkMap: TestMap }).networkMap.queryRenderedFeatures({ layers: ['found'] }).map((f) => String(f.properties.label)))

async function find(page: Page, text: string) {
  await page.getByRole('combobox', { name: /^Find a circuit/ }).fill(text)
}

test.describe('the map goes to', { tag: '@map' }, () => {
  test('what an address selects without saying where', async ({ page }) => {
    const splice = await worst(page)
    await page.goto(`/operations?test&sel=splice-${splice.id}`)
    await expectMapAt(page, splice, 13)
    await settled(page)
    await expectMapAt(page, splice, 13)
  })

  test('a circuit that an address selects without saying where', async ({ page }) => {
    const splice = await worst(page)
    await page.goto(`/operations?test&sel=circuit-${splice.circuit_id}`)
    const { items } = searchResult.parse(await (await page.request.get(`/api/v1/search?q=${splice.circuit}`)).json())
    const circuit = items.find((i) => i.kind === 'circuit' && i.id === splice.circuit_id)
    if (!circuit?.bbox) throw new Error('The circuit has no extent.')
    const [west, south, east, north] = circuit.bbox
    await expectMapAt(page, { lon: (west + east) / 2, lat: (south + north) / 2 }, 7.5)
  })

  test('the first row that is pressed, also while the map is still starting', async ({ page }) => {
    const splice = await worst(page)
    // The map is held back until the row has been pressed.
    let release = () => undefined as void
    const pressed = new Promise<void>((resolve) => { release = resolve })
    await page.route('**/basemap.pmtiles', async (route) => {
      await pressed
      await route.continue()
    })
    await page.goto('/operations?test')
    await row(page, 1).click()
    release()
    await expectMapAt(page, splice, 13)
    await settled(page)
    await expectMapAt(page, splice, 13)
  })

  test('the first row that is pressed after the network was shown', async ({ page }) => {
    const splice = await worst(page)
    await page.goto('/operations?test')
    await settled(page)
    await row(page, 1).click()
    await expectMapAt(page, splice, 13)
  })

  test('a splice, a circuit and a place that were searched, by Enter before the answer came', async ({ page }) => {
    const splice = await worst(page)
    await page.goto('/operations?test')
    await settled(page)
    await find(page, splice.splice)
    await page.keyboard.press('Enter')
    await expectMapAt(page, splice, 13)
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${splice.id}`)
    await find(page, splice.circuit)
    await expect(found(page).first()).toContainText(splice.circuit)
    await page.keyboard.press('Enter')
    await expect.poll(() => param(page, 'sel')).toBe(`circuit-${splice.circuit_id}`)
    await expect.poll(async () => (await stands(page))?.zoom ?? 99).toBeLessThan(12)
    await find(page, '47.5, -113.5')
    await page.keyboard.press('Enter')
    await expectMapAt(page, { lat: 47.5, lon: -113.5 }, 12)
  })

  test('nowhere when the address says where: the selection is marked, and a button goes there', async ({ page }) => {
    const splice = await worst(page)
    const at = { lat: 46.5, lon: -112 }
    await page.goto(`/operations?test&at=${at.lat},${at.lon},12&sel=splice-${splice.id}`)
    await settled(page)
    await expectMapAt(page, at, 12)
    const away = page.getByRole('status').filter({ hasText: `${splice.splice} is out of view` })
    await away.getByRole('button', { name: 'Show on map' }).click()
    await expectMapAt(page, splice, 12)
    await expect(away).toBeHidden()
  })
})

test.describe('what was searched and has no mark of its own', { tag: '@map' }, () => {
  test('is marked with its name, in the address too, until Escape', async ({ page }) => {
    await page.goto('/operations?test')
    await find(page, '47.5, -113.5')
    await page.keyboard.press('Enter')
    await settled(page)
    await expect.poll(() => marked(page)).toEqual(['47.50000, -113.50000'])
    await page.reload()
    await settled(page)
    await expect.poll(() => marked(page)).toEqual(['47.50000, -113.50000'])
    await page.locator('[data-network-map] canvas').focus()
    await page.keyboard.press('Escape')
    await expect.poll(() => marked(page)).toEqual([])
    await expect.poll(() => param(page, 'mark')).toBeNull()
  })

  test('is listed with circuit and line name where several structures bear one number, and waits for a choice', async ({ page }) => {
    await page.goto('/operations?test')
    await settled(page)
    await find(page, '045')
    await page.keyboard.press('Enter')
    await expect(page.getByText(/^\d+ structures are called 045\. Choose by circuit\.$/)).toBeVisible()
    const { items } = searchResult.parse(await (await page.request.get('/api/v1/search?q=045')).json())
    const second = items.filter((i) => i.label === '045')[1]
    if (!second) throw new Error('The demo numbers no two structures alike.')
    const option = found(page).filter({ hasText: second.detail ?? '' }).first()
    await expect(option).toContainText(/\d{4} \p{L}+.* - /u)
    await option.click()
    await expectMapAt(page, second, 13)
    await expect.poll(() => marked(page)).toEqual([`STR 045 · ${second.circuits.join(', ')}`])
    expect(second.circuits.length).toBeGreaterThan(0)
  })
})

test.describe('on a phone', { tag: '@map' }, () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true })

  test('a link to a splice opens its sheet over the map at its place, and the sheet makes room for the map', async ({ page }) => {
    const splice = await worst(page)
    await page.goto(`/operations?test&sel=splice-${splice.id}`)
    const sheet = page.getByRole('complementary', { name: 'Splice sheet' })
    await expect(sheet.getByRole('heading', { name: splice.splice })).toBeVisible()
    await expectMapAt(page, splice, 13)
    await sheet.getByRole('button', { name: 'Show on map' }).click()
    await expect(sheet).toBeHidden()
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${splice.id}`)
    await page.getByRole('button', { name: 'Show the sheet' }).click()
    await expect(sheet).toBeVisible()
  })
})

test('the controls, the legend and the notes of the map lie beside each other at every size, in light and dark', { tag: '@map' }, async ({ browser, baseURL }) => {
  const parts = ['[aria-label="Map view"]', '[aria-label="Condition classes on the map"]', '.maplibregl-ctrl-scale', '.maplibregl-ctrl-attrib',
    '[data-map-theme] > [role="status"] p']
  for (const [width, height] of [[1440, 900], [1280, 720], [390, 844]] as const) {
    for (const colorScheme of ['light', 'dark'] as const) {
      const page = await (await browser.newContext({ baseURL, colorScheme, viewport: { width, height } })).newPage()
      await page.goto('/operations?test&at=47.86,-114.86,14')
      await settled(page)
      const boxes = await Promise.all(parts.map(async (selector) => ({ selector, box: await page.locator(selector).first().boundingBox() })))
      for (const { selector, box } of boxes) expect([width, selector, box !== null]).toEqual([width, selector, true])
      for (const [i, a] of boxes.entries()) {
        for (const b of boxes.slice(i + 1)) {
          if (!a.box || !b.box) continue
          const over = Math.min(a.box.x + a.box.width, b.box.x + b.box.width) - Math.max(a.box.x, b.box.x)
          const down = Math.min(a.box.y + a.box.height, b.box.y + b.box.height) - Math.max(a.box.y, b.box.y)
          expect([width, colorScheme, a.selector, b.selector, Math.min(over, down) > 0.5]).toEqual([width, colorScheme, a.selector, b.selector, false])
        }
      }
      await page.context().close()
    }
  }
})
