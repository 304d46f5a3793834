import type { Page } from '@playwright/test'
import { spliceList, type SpliceSummary } from '@/lib/contract/contract'
import { stateJson } from '@/lib/contract/api'
import { seriousBarriers } from './barriers'
import { linesOf } from '@/test/fixtures/browser/test-lines'
import { expect, test } from './fixtures'
import { importNow, overhang, toldBy, undoNow } from './imports'

const state = async (page: Page) => stateJson.parse(await (await page.request.get('/api/v1/state')).json())
const splices = async (page: Page, query: string) => spliceList.parse(await (await page.request.get(`/api/v1/splices?${query}`)).json())

async function first(page: Page, query: string): Promise<SpliceSummary> {
  const [splice] = (await splices(page, `${query}&limit=1`)).items
  if (!splice) throw new Error(`The demo has no splice for ${query}.`)
  return splice
}

const options = (page: Page) => page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option')
const chosen = (page: Page) => page.locator('#splice-list [aria-selected="true"]')
const sheet = (page: Page) => page.getByRole('complementary', { name: 'Splice sheet' })
const param = (page: Page, name: string) => new URL(page.url()).searchParams.get(name)

async function open(page: Page, path = '/operations') {
  await page.goto(path)
  await expect(options(page).first()).toBeAttached()
}
/** Does something that makes the map fly, and waits until it has landed and drawn. */
async function flight(page: Page, act: () => Promise<void>) {
  const landed = page.locator('[data-network-map]').evaluate((map) => new Promise<void>((resolve) => {
    let left = false
    new MutationObserver(() => {
      if (map.getAttribute('data-idle') !== '1') left = true
      else if (left) resolve()
    }).observe(map, { attributeFilter: ['data-idle'] })
  }))
  await act()
  await landed
}
const mapStill = (page: Page) => expect(page.locator('[data-network-map]')).toHaveAttribute('data-idle', '1', { timeout: 60_000 })

test.describe('Operations', () => {
  test('lists what the map shows, the worst first, and says how many there are of each class', async ({ page }) => {
    await open(page)
    const { counts } = await state(page)
    const worst = await first(page, 'sort=risk')
    await expect(options(page).nth(1)).toContainText(worst.splice)
    await expect(options(page).nth(1)).toContainText(worst.class)
    const legend = page.getByRole('group', { name: 'Condition classes on the map' })
    for (const name of ['critical', 'urgent', 'degraded', 'watch', 'sound', 'unknown'] as const) {
      await expect(legend.getByRole('button', { name: new RegExp(`^${name}`) })).toContainText(counts[name].toLocaleString('en-US'))
    }
  })

  test('a row opens the sheet and takes the map along; Back takes both back', { tag: '@map' }, async ({ page }) => {
    await open(page)
    await mapStill(page)
    const before = param(page, 'at')
    const worst = await first(page, 'sort=risk')
    await flight(page, () => options(page).nth(1).click())
    await expect(sheet(page).getByRole('heading', { name: worst.splice })).toBeVisible()
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${worst.id}`)
    const [lat = NaN, lon = NaN] = (param(page, 'at') ?? '').split(',').map(Number)
    expect(Math.abs(lat - worst.lat)).toBeLessThan(0.001)
    expect(Math.abs(lon - worst.lon)).toBeLessThan(0.001)
    await page.goBack()
    await expect(sheet(page)).toBeHidden()
    await expect.poll(() => param(page, 'at')).toBe(before)
  })

  test('what is pressed on the map is selected in the list', { tag: '@map' }, async ({ page }) => {
    const worst = await first(page, 'class=critical&sort=risk')
    await open(page, `/operations?at=${worst.lat},${worst.lon},18`)
    await mapStill(page)
    const box = await page.locator('#plan').boundingBox()
    if (!box) throw new Error('The map is not on the screen.')
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2)
    await expect(chosen(page)).toContainText(worst.splice)
    await expect(sheet(page).getByRole('heading', { name: worst.splice })).toBeVisible()
  })

  test('a class taken out of the legend leaves list, map and address, and the list says what it hides', async ({ page }) => {
    await open(page)
    const { counts } = await state(page)
    const legend = page.getByRole('group', { name: 'Condition classes on the map' })
    await legend.getByRole('button', { name: 'Only critical' }).focus()
    await page.keyboard.press('Enter')
    await expect(legend.getByRole('button', { name: /^sound/ })).toHaveAttribute('aria-pressed', 'false')
    await expect(legend.getByRole('button', { name: /^critical/ })).toHaveAttribute('aria-pressed', 'true')
    // What was shown before is a step back.
    await page.goBack()
    await expect(legend.getByRole('button', { name: /^sound/ })).toHaveAttribute('aria-pressed', 'true')
    await page.goForward()
    await legend.getByRole('button', { name: 'All classes again' }).click()
    await legend.getByRole('button', { name: /^critical/ }).click()
    await expect(page.getByText(`Hidden by the filter: ${counts.critical} critical`)).toBeVisible()
    await expect(options(page).nth(1)).not.toContainText('critical')
    // The address follows what is on screen; it named the critical ones alone a moment ago.
    await expect.poll(() => param(page, 'class')).toMatch(/^(?!.*critical).*urgent/)
    await page.reload()
    await expect(page.getByText(`Hidden by the filter: ${counts.critical} critical`)).toBeVisible()
    await page.getByRole('complementary', { name: 'Splices' }).getByRole('button', { name: 'Show all' }).click()
    await expect(options(page).nth(1)).toContainText('critical')
    expect(param(page, 'class')).toBeNull()
  })

  test('where a browser draws no map, it says why, and list, sheet and strip do the work', async ({ page }) => {
    await open(page)
    await expect(page.locator('#plan').getByRole('alert')).toContainText('draws no WebGL 2')
    await expect(page.getByRole('group', { name: 'Condition classes on the map' }).getByRole('button', { name: /^critical/ })).toBeInViewport()
    const worst = await first(page, 'sort=risk')
    await options(page).nth(1).click()
    await expect(sheet(page).getByRole('heading', { name: worst.splice })).toBeVisible()
    await expect(page.getByRole('region', { name: 'Strip' }).locator(`[data-splice="${worst.id}"]`)).toHaveAttribute('aria-pressed', 'true')
  })

  test('circuit, voltage and phase narrow the list to what the API counts', async ({ page }) => {
    await open(page)
    const worst = await first(page, 'sort=risk')
    await page.getByRole('button', { name: 'Circuit: all' }).click()
    await page.getByRole('checkbox', { name: new RegExp(`^${worst.circuit}\\b`) }).click()
    await page.keyboard.press('Escape')
    await page.getByRole('button', { name: 'Phase: all' }).click()
    await page.getByRole('checkbox', { name: 'Phase A' }).click()
    await page.keyboard.press('Escape')
    const narrowed = await splices(page, `circuit=${worst.circuit_id}&phase=A&limit=1`)
    await expect(page.getByText(`${narrowed.total} in the filter, by risk`)).toBeVisible()
    expect(param(page, 'circuit')).toBe(String(worst.circuit_id))
    expect(param(page, 'phase')).toBe('A')
  })

  test('a link shows another person the same view', { tag: '@map' }, async ({ page, browser, baseURL }) => {
    const worst = await first(page, 'class=urgent&sort=risk')
    const other = await (await browser.newContext({ baseURL })).newPage()
    await open(other, `/operations?at=${worst.lat},${worst.lon},14&sel=splice-${worst.id}&class=urgent,critical`)
    await expect(chosen(other)).toContainText(worst.splice)
    await expect(sheet(other).getByRole('heading', { name: worst.splice })).toBeVisible()
    await mapStill(other)
    const [lat = NaN, lon = NaN, zoom] = (param(other, 'at') ?? '').split(',').map(Number)
    expect([lat.toFixed(5), lon.toFixed(5), zoom]).toEqual([worst.lat.toFixed(5), worst.lon.toFixed(5), 14])
    await other.context().close()
  })

  test('is worked by keyboard alone: skip, find, walk the list, open the sheet', async ({ page }) => {
    await open(page)
    await page.keyboard.press('Tab')
    await expect(page.getByRole('link', { name: 'Skip to content' })).toBeFocused()
    const worst = await first(page, 'class=urgent&sort=risk')
    await page.locator('body').press('/')
    const find = page.getByRole('combobox', { name: /^Find a circuit/ })
    await expect(find).toBeFocused()
    await page.keyboard.type(worst.splice)
    await expect(page.getByRole('listbox', { name: 'Found' }).getByRole('option').first()).toContainText(worst.splice)
    await page.keyboard.press('Enter')
    await expect(sheet(page).getByRole('heading', { name: worst.splice })).toBeVisible()
    await page.locator('#splice-list').focus()
    await expect(chosen(page)).toContainText(worst.splice)
    const from = param(page, 'at')
    await page.keyboard.press('ArrowDown')
    await expect(chosen(page)).not.toContainText(worst.splice)
    await expect.poll(() => param(page, 'at')).not.toBe(from)
    await page.keyboard.press('Home')
    await expect(options(page).nth(1)).toHaveAttribute('aria-selected', 'true')
    await expect(sheet(page).getByRole('heading', { name: (await first(page, 'sort=risk')).splice })).toBeVisible()
  })

  test('coordinates take the map to their place', { tag: '@map' }, async ({ page }) => {
    await open(page)
    const { network_bbox: box } = await state(page)
    if (!box) throw new Error('The demo has no network.')
    const [lat, lon] = [((box[1] + box[3]) / 2).toFixed(4), ((box[0] + box[2]) / 2).toFixed(4)]
    await page.locator('body').press('/')
    await page.keyboard.type(`${lat}, ${lon}`)
    await expect(page.getByRole('listbox', { name: 'Found' }).getByRole('option')).toHaveCount(1)
    await page.keyboard.press('Enter')
    await expect.poll(() => param(page, 'at')).toContain(`${Number(lat).toFixed(5)},${Number(lon).toFixed(5)}`)
  })

  test('a name that nothing bears is answered with what to try instead', async ({ page }) => {
    await open(page)
    await page.locator('body').press('/')
    await page.keyboard.type('no such thing')
    await expect(page.getByText('Nothing is called \'no such thing\'.')).toBeVisible()
  })

  test('panels fold away and are remembered', async ({ page }) => {
    await open(page)
    await page.getByRole('button', { name: 'Hide the list' }).click()
    await expect(page.locator('#splice-list')).toBeHidden()
    await page.reload()
    await expect(page.getByRole('button', { name: 'Show the list' })).toBeVisible()
    await page.getByRole('button', { name: 'Show the list' }).click()
    await expect(options(page).first()).toBeVisible()
  })

  test('feet and metres change in list and sheet together', async ({ page }) => {
    const worst = await first(page, 'sort=risk')
    await open(page, `/operations?sel=splice-${worst.id}`)
    await page.getByRole('radio', { name: /^US units/ }).click()
    await expect(chosen(page)).toContainText(/\+ [\d.,]+ ft/)
    await expect(sheet(page)).toContainText(/\+ [\d.,]+ ft/)
    await page.getByRole('radio', { name: /^Metric units/ }).click()
    await expect(chosen(page)).toContainText(/\+ [\d.,]+ m/)
    await expect(sheet(page)).toContainText(/\+ [\d.,]+ m/)
  })

  test('the theme that was chosen is there at once after a reload', async ({ page }) => {
    await open(page)
    await page.getByRole('radio', { name: 'Dark' }).click()
    await page.reload({ waitUntil: 'commit' })
    await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
    const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor)
    expect(paper.match(/\d+/g)?.slice(0, 3).every((part) => Number(part) < 40)).toBe(true)
  })

  test('a reading critical by its own numbers stands before everything until the control room is told', async ({ page, baseURL }) => {
    const splice = await first(page, 'class=sound&sort=place')
    await open(page)
    const answer = await page.request.post('/api/v1/readings?survey=Control%20room%20drill', {
      headers: { Origin: baseURL ?? '' },
      data: [{
        reading_id: `drill-${Date.now()}`, taken_at: new Date().toISOString(), kind: 'resistance', circuit: splice.circuit,
        section: splice.section, splice_id: splice.splice, side_a_uohm: 95, side_b_uohm: 12, conductor_uohm: 12, electrode_span_m: 0.3048,
      }],
    })
    expect(answer.ok()).toBe(true)
    const strip = page.getByRole('region', { name: 'Call the control room now' })
    await expect(strip).toContainText('critical, ratio 7.92', { timeout: 60_000 })
    await strip.getByRole('button', { name: /^Show/ }).click()
    const item = strip.getByRole('listitem').filter({ hasText: splice.splice })
    await expect(item).toContainText(splice.circuit)
    await item.getByRole('button', { name: 'Show sheet', exact: true }).click()
    await expect(sheet(page).getByRole('heading', { name: splice.splice })).toBeVisible()
    await expect(sheet(page)).toContainText('If it trips')
    await item.getByRole('button', { name: 'Control room told' }).click()
    const asked = page.getByRole('dialog', { name: 'Control room told' })
    await expect(asked.getByLabel(/^At what time/)).toHaveValue(/^\d\d:\d\d$/)
    await asked.getByRole('button', { name: 'Note it' }).click()
    await expect(asked).toContainText('Of a critical finding this is needed')
    await asked.getByLabel('Who was told').fill('Desk 2')
    expect(await seriousBarriers(page)).toEqual([])
    await asked.getByRole('button', { name: 'Note it' }).click()
    await expect(item).toBeHidden()
    await expect(sheet(page)).toContainText(/Control room told: Desk 2, \d+ \w+ \d{4} \d\d:\d\d .*, noted by operator/)

    // A slip is taken back, and the finding waits again.
    await page.getByRole('button', { name: 'Undo', exact: true }).click()
    await expect(strip).toContainText('critical, ratio 7.92')
    if (await item.count() === 0) await strip.getByRole('button', { name: /^Show/ }).click()
    await toldBy(page, item)
    await expect(item).toBeHidden()
  })
})

test.describe('Operations on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true })

  test('shows one of map, list and sheet at a time', { tag: '@map' }, async ({ page }) => {
    await page.goto('/operations')
    const bar = page.getByRole('navigation', { name: 'Main, phone' })
    await expect(page.locator('[data-network-map] canvas')).toBeVisible()
    await expect(page.locator('#splice-list')).toBeHidden()
    await bar.getByRole('link', { name: 'List' }).click()
    await expect(options(page).first()).toBeVisible()
    await options(page).nth(1).click()
    await expect(sheet(page)).toBeVisible()
    await sheet(page).getByRole('button', { name: 'Close the sheet' }).click()
    await expect(sheet(page)).toBeHidden()
    await expect(options(page).first()).toBeVisible()
    await bar.getByRole('link', { name: 'Map' }).click()
    await expect(page.locator('#splice-list')).toBeHidden()
  })

  test('fits the width, with nothing to push sideways', async ({ page }) => {
    for (const path of ['/operations', '/operations?view=list', '/health', `/splices/${(await first(page, 'sort=risk')).id}`]) {
      await page.goto(path)
      await page.waitForLoadState('networkidle')
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
    }
  })
})

test('Operations has no serious barrier, in light and dark, at a desk and on a phone', { tag: '@map' }, async ({ browser, baseURL, page: any }) => {
  const worst = await first(any, 'sort=risk')
  const desk = { width: 1440, height: 900 }
  const phone = { width: 390, height: 844 }
  const views = [
    { colorScheme: 'light', viewport: desk, query: `?sel=splice-${worst.id}` },
    { colorScheme: 'dark', viewport: desk, query: `?sel=circuit-${worst.circuit_id}` },
    { colorScheme: 'light', viewport: phone, query: '?view=list' },
    { colorScheme: 'dark', viewport: phone, query: '' },
  ] as const
  for (const { query, ...options } of views) {
    const page = await (await browser.newContext({ baseURL, ...options })).newPage()
    await page.goto(`/operations${query}`)
    await page.waitForLoadState('networkidle')
    expect(await seriousBarriers(page)).toEqual([])
    await page.context().close()
  }
})

test.describe('a row that was not read and cannot wait', () => {
  const START_LAT = 47.65
  const SURVEY = 'reading_id,taken_at,lon,lat,circuit,structure_back,structure_ahead,phase,side_a_uohm,side_b_uohm,conductor_uohm,electrode_span_m\n'
    + 'OP-R,2024-02-31T09:00:00Z,,,OP-1,2,3,B,53,10,12,0.3048\n'
  let linesId: number
  let surveyId: number

  test.beforeAll(async ({ request }) => {
    linesId = (await importNow(request, { name: 'op-lines.geojson', text: linesOf('OP-', START_LAT), kind: 'lines' })).id
    surveyId = (await importNow(request, { name: 'op-walk.csv', text: SURVEY, kind: 'readings' })).id
  })
  test.afterAll(async ({ request }) => {
    await undoNow(request, surveyId)
    await undoNow(request, linesId)
  })

  const strip = (page: Page) => page.getByRole('region', { name: 'Call the control room now' })
  const item = (page: Page) => strip(page).getByRole('listitem').filter({ hasText: 'Row 1 of op-walk.csv' })

  test('stands in the banner with its file, row, place, numbers and why, in a third of the screen and without a barrier in both themes', async ({ page }) => {
    for (const [colorScheme, width, height] of [['light', 1440, 900], ['dark', 390, 844]] as const) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
      await page.setViewportSize({ width, height })
      await page.goto('/operations')
      await strip(page).getByRole('button', { name: /^Show/ }).click()
      await expect(item(page)).toContainText('critical')
      await expect(item(page)).toContainText('4.42')
      await expect(item(page)).toContainText('OP-1')
      await expect(item(page)).toContainText('says STR 2-3, phase B')
      await expect(item(page)).toContainText('side A 53.0 µΩ, side B 10.0 µΩ, conductor 12.0 µΩ')
      await expect(item(page)).toContainText("Not read: '2024-02-31T09:00:00Z'")
      expect(await overhang(page)).toBe(0)
      expect(await seriousBarriers(page)).toEqual([])
      const box = await strip(page).boundingBox()
      if (width > 760) expect((box?.height ?? Infinity) / height).toBeLessThanOrEqual(0.34)
      await strip(page).getByRole('button', { name: 'Hide' }).click()
      await expect(item(page)).toHaveCount(0)
    }
  })

  test('keeps its columns on one grid', async ({ page }) => {
    await page.goto('/operations')
    await strip(page).getByRole('button', { name: /^Show/ }).click()
    const lefts = await strip(page).getByRole('listitem').evaluateAll((rows) => rows.map((row) => [...row.children].slice(0, 4).map((cell) => Math.round(cell.getBoundingClientRect().right))))
    // The ratio ends and the place begins at the same x in every row.
    expect(new Set(lefts.map((row) => row[1])).size).toBe(1)
    expect(new Set(lefts.map((row) => row[3])).size).toBe(1)
  })

  test('is told where it stands, and the report of its file says so', async ({ page }) => {
    const before = (await state(page)).urgent_count
    await page.goto('/operations')
    await strip(page).getByRole('button', { name: /^Show/ }).click()
    await toldBy(page, item(page))
    await expect(item(page)).toHaveCount(0)
    expect((await state(page)).urgent_count).toBe(before - 1)
    await page.goto(`/intake/${surveyId}?again=1`)
    await expect(page.getByRole('heading', { name: 'Already announced: the control room has been told' })).toBeVisible()
    await expect(page.getByText('One row that was not read is critical by its own numbers')).toBeVisible()
  })
})
