import type { Page } from '@playwright/test'
import { coverageSummary, neverPage, spanSurveys } from '@/lib/contract/survey-layer'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'
import { overhang } from './imports'

interface TestMap {
  getZoom(): number
  getCenter(): { lng: number; lat: number }
  project(at: [number, number]): { x: number; y: number }
  queryRenderedFeatures(options: { layers: string[] }): { id?: number | string; properties: Record<string, unknown>; geometry: { coordinates: [number, number][] } }[]
}

const param = (page: Page, name: string) => new URL(page.url()).searchParams.get(name)
const legend = (page: Page) => page.getByRole('group', { name: 'When spans were last surveyed' })
const layerSwitch = (page: Page) => page.getByRole('radiogroup', { name: 'What the map shows' })
const never = (page: Page) => page.getByRole('complementary', { name: 'Never surveyed' })
const summary = async (page: Page, query = '') => coverageSummary.parse(await (await page.request.get(`/api/v1/coverage?${query}`)).json())
const listed = async (page: Page, query = '') => neverPage.parse(await (await page.request.get(`/api/v1/coverage/never?${query}`)).json())
const settled = (page: Page) => expect(page.locator('[data-network-map]')).toHaveAttribute('data-idle', '1', { timeout: 90_000 })

const drawn = (page: Page, layers: string[]) => page.evaluate((names) => {
  const map = (window as unknown as { networkMap: TestMap }).networkMap
  return map.queryRenderedFeatures({ layers: names }).map((f) => ({ id: Number(f.id), properties: f.properties, line: f.geometry.coordinates }))
}, layers)

test.describe('The survey layer', () => {
  test('is switched on by keys, stands in the address, and counts what it draws in words', async ({ page }) => {
    const all = await summary(page)
    await page.goto('/operations')
    await expect(page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option').first()).toBeAttached()
    await layerSwitch(page).getByRole('radio', { name: 'Condition' }).focus()
    await page.keyboard.press('ArrowRight')
    await expect(layerSwitch(page).getByRole('radio', { name: 'Survey' })).toBeFocused()
    await page.keyboard.press('Enter')
    await expect.poll(() => param(page, 'layer')).toBe('survey')
    await expect(legend(page)).toContainText(`never surveyed${all.never.spans}`)
    await expect(legend(page)).toContainText('no reading means that nothing was found, never that a splice is sound')
    await page.reload()
    await expect(legend(page)).toBeVisible()
    await page.goBack()
    await expect(page.getByRole('group', { name: 'Condition classes on the map' })).toBeVisible()
  })

  test('narrows to a phase and to years, and never stays never', async ({ page }) => {
    const ofA = await summary(page, 'phase=A')
    const year = ofA.years[0] ?? 0
    await page.goto('/operations?layer=survey')
    await legend(page).getByLabel('Phase surveyed').selectOption({ label: 'Phase A' })
    await expect.poll(() => param(page, 'layer-phase')).toBe('A')
    await expect(legend(page)).toContainText(`never surveyed${ofA.never.spans}`)
    await expect(legend(page)).not.toContainText('some phases only')
    await legend(page).getByRole('button', { name: 'Year: any' }).click()
    await page.getByRole('checkbox', { name: String(year) }).click()
    await page.keyboard.press('Escape')
    await expect.poll(() => param(page, 'layer-year')).toBe(String(year))
    const ofYear = await summary(page, `phase=A&year=${year}`)
    expect(ofYear.never.spans).toBe(ofA.never.spans)
    await expect(legend(page)).toContainText(`in other years${ofYear.elsewhen.toLocaleString('en-US')}`)
  })

  test('lists what was never surveyed, longest first, and each row takes the map there', async ({ page }) => {
    const longest = await listed(page)
    const first = longest.items[0]
    if (!first) throw new Error('The demo has no stretch that was never surveyed.')
    await page.goto('/operations?layer=survey')
    await legend(page).getByRole('button', { name: /^List / }).press('Enter')
    await expect(never(page)).toContainText(`${longest.total} stretches`)
    const table = never(page).getByRole('table', { name: /^Stretches never surveyed/ })
    await expect(table.getByRole('columnheader', { name: 'Length' })).toHaveAttribute('aria-sort', 'descending')
    await expect(table.getByRole('row')).toHaveCount(longest.items.length + 1)
    await expect(table.getByRole('row').nth(1)).toContainText(`STR ${first.from}-${first.to}`)
    await expect(table.getByRole('row').nth(1)).toContainText(/\d (mi|ft|km|m)$|\d (mi|ft|km|m)\d/)
    await table.getByRole('button', { name: 'Circuit' }).press('Enter')
    await expect.poll(() => param(page, 'layer-list')).toBe('circuit')
    await table.getByRole('button', { name: `STR ${first.from}-${first.to} of ${first.circuit}: show on the map` }).press('Enter')
    await expect.poll(() => param(page, 'at')).not.toBeNull()
    const [lat = 0, lon = 0] = (param(page, 'at') ?? '').split(',').map(Number)
    expect(lon).toBeGreaterThanOrEqual(first.bbox[0])
    expect(lon).toBeLessThanOrEqual(first.bbox[2])
    expect(lat).toBeGreaterThanOrEqual(first.bbox[1])
    expect(lat).toBeLessThanOrEqual(first.bbox[3])
    await never(page).press('Escape')
    await expect(never(page)).toHaveCount(0)
  })

  test('has no barrier in light or dark, fits a phone, and prints its list', async ({ page }) => {
    for (const scheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme: scheme })
      await page.goto('/operations?layer=survey&layer-list=length')
      await expect(never(page).getByRole('table')).toBeVisible()
      await expect(legend(page)).toContainText('never surveyed')
      expect(await seriousBarriers(page)).toEqual([])
    }
    await page.emulateMedia({ media: 'print' })
    await expect(never(page).getByRole('table')).toBeVisible()
    await expect(page.getByRole('complementary', { name: 'Splices' })).toBeHidden()
    await page.emulateMedia({ media: 'screen' })
    await page.setViewportSize({ width: 390, height: 844 })
    await page.goto('/operations?layer=survey')
    await expect(legend(page)).toContainText('never surveyed')
    expect(await overhang(page)).toBeLessThanOrEqual(0)
    await legend(page).getByRole('button', { name: /^List / }).click()
    await expect(never(page).getByRole('table')).toBeVisible()
    expect(await overhang(page)).toBeLessThanOrEqual(0)
    await never(page).getByRole('button', { name: /show on the map$/ }).first().click()
    await expect(never(page)).toHaveCount(0)
  })

  test('of figures that do not come says so and asks again', async ({ page }) => {
    let refuse = true
    await page.route('**/api/v1/coverage?*', (route) => (refuse ? route.fulfill({ status: 204, body: '' }) : route.fallback()))
    await page.goto('/operations?layer=survey')
    const alert = legend(page).getByRole('alert')
    await expect(alert).toBeVisible({ timeout: 60_000 })
    refuse = false
    await alert.getByRole('button', { name: 'Try again' }).click()
    await expect(legend(page)).toContainText('never surveyed')
  })

  test('tells in the strip and its table where only finds were written down', async ({ page }) => {
    const state = await (await page.request.get('/api/v1/splices?sort=worst&limit=1')).json() as { items: { circuit_id: number }[] }
    await page.goto(`/operations?sel=circuit-${state.items[0]?.circuit_id}`)
    const strip = page.getByRole('region', { name: 'Strip' })
    await strip.getByRole('button', { name: 'As a table' }).click()
    await expect(page.getByRole('table', { name: /when their phases were looked at/ })).toContainText('looked at, proves nothing; exceptions only')
  })
})

test.describe('The survey layer on the map', { tag: '@map' }, () => {
  test('draws spans by state with tracks, says of one in words who surveyed it, by pointer and by keys', async ({ page }) => {
    const stretch = (await listed(page)).items[0]
    if (!stretch) throw new Error('The demo has no stretch that was never surveyed.')
    const at = `${((stretch.bbox[1] + stretch.bbox[3]) / 2).toFixed(5)},${((stretch.bbox[0] + stretch.bbox[2]) / 2).toFixed(5)},12.6`
    await page.goto(`/operations?test&layer=survey&at=${at}`)
    await settled(page)
    const hollow = await drawn(page, ['survey-spans-hollow'])
    expect(hollow.filter((f) => f.properties.state === 'never').length).toBeGreaterThan(0)
    expect(await drawn(page, ['splice-clusters', 'circuit'])).toEqual([])
    expect((await drawn(page, ['track-line'])).every((f) => Number(f.properties.end_ms) >= Number(f.properties.start_ms))).toBe(true)
    // One without a splice, whose mark would be what is pointed at.
    const span = hollow.find((f) => f.properties.state === 'never' && f.properties.back === stretch.from)
    if (!span) throw new Error('The stretch that the list begins with is not drawn.')
    const known = spanSurveys.parse(await (await page.request.get(`/api/v1/spans/${span.id}/surveys`)).json())
    const [[lon0 = 0, lat0 = 0] = [], [lon1 = 0, lat1 = 0] = []] = span.line
    // Where the span's middle is the map's, Enter asks for it.
    await page.goto(`/operations?test&layer=survey&at=${((lat0 + lat1) / 2).toFixed(5)},${((lon0 + lon1) / 2).toFixed(5)},13.6`)
    await settled(page)
    const middle = await page.evaluate(() => {
      const map = (window as unknown as { networkMap: TestMap }).networkMap
      const { lng, lat } = map.getCenter()
      return map.project([lng, lat])
    })
    const box = await page.locator('[data-network-map]').boundingBox()
    await page.mouse.move((box?.x ?? 0) + middle.x + 1, (box?.y ?? 0) + middle.y + 1)
    await expect(page.locator('#plan')).toContainText(`STR ${known.structure_back}-${known.structure_ahead}`)
    await page.mouse.move(5, 5)
    await page.locator('[data-network-map] canvas').focus()
    await page.keyboard.press('Enter')
    await expect.poll(() => param(page, 'layer-span')).toBe(String(span.id))
    const card = page.getByRole('region', { name: 'Surveys of the span' })
    await expect(card).toContainText(`STR ${known.structure_back}-${known.structure_ahead}`)
    await expect(card).toContainText('Phases A, B, C')
    await expect(card).toContainText('never surveyed')
    await card.getByRole('button', { name: 'Close the span' }).press('Enter')
    await expect(card).toHaveCount(0)
  })

  test('draws the tracks of the surveys chosen alone, with the way they went', async ({ page }) => {
    const survey = ((await (await page.request.get('/api/v1/surveys')).json()) as { items: { id: number; name: string }[] }).items[0]
    if (!survey) throw new Error('The demo has no survey.')
    await page.goto('/operations?test&layer=survey')
    await settled(page)
    await expect.poll(async () => new Set((await drawn(page, ['track-line'])).map((f) => f.properties.survey)), { timeout: 60_000 }).toEqual(new Set([survey.name]))
    expect((await drawn(page, ['track-arrows'])).length).toBeGreaterThan(0)
    await page.goto('/operations?test&layer=survey&layer-track=')
    await settled(page)
    expect(await drawn(page, ['track-line'])).toEqual([])
  })
})
