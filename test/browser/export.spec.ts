import fs from 'node:fs'
import type { Page } from '@playwright/test'
import { spliceList } from '@/lib/contract/contract'
import { problem } from '@/lib/contract/problem'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'
import { overhang } from './imports'

const listed = async (page: Page, query: string) => spliceList.parse(await (await page.request.get(`/api/v1/splices?${query}`)).json())
const button = (page: Page) => page.getByRole('button', { name: 'Export' })
const menu = (page: Page) => page.getByRole('menu')

async function open(page: Page, query = '') {
  await page.goto(`/operations${query}`)
  await expect(page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option').first()).toBeAttached()
}

/** Width and height as a PNG has them (W3C, Portable Network Graphics, 11.2.2 IHDR), and how many colours its picture has. */
async function looked(page: Page, path: string) {
  const bytes = fs.readFileSync(path)
  expect(bytes.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a') // the signature, 5.2
  const colours = await page.evaluate(async (base64) => {
    const bitmap = await createImageBitmap(new Blob([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], { type: 'image/png' }))
    const g = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')
    g?.drawImage(bitmap, 0, 0)
    const { data } = g?.getImageData(0, 0, bitmap.width, bitmap.height) ?? { data: [] }
    const found = new Set<string>()
    for (let i = 0; i < data.length; i += 4) found.add(`${data[i]},${data[i + 1]},${data[i + 2]}`)
    return [...found]
  }, bytes.toString('base64'))
  return { widthPx: bytes.readUInt32BE(16), heightPx: bytes.readUInt32BE(20), colours }
}

async function picture(page: Page) {
  await button(page).click()
  const [download] = await Promise.all([page.waitForEvent('download'), menu(page).getByRole('menuitem', { name: /^PNG/ }).click()])
  expect(download.suggestedFilename()).toMatch(/^splices-\d{4}-\d\d-\d\d\.png$/)
  return looked(page, await download.path())
}

test.describe('what is on screen, taken out', () => {
  test('the menu says by keys how many splices each file holds and what is left out, and hands them over', async ({ page }) => {
    const all = await listed(page, 'limit=1')
    const filtered = await listed(page, 'class=critical,degraded&phase=A&limit=1')
    expect(filtered.hidden.urgent).toBe(all.counts.urgent)
    await open(page, '?class=critical,degraded&phase=A')
    await button(page).focus()
    await page.keyboard.press('Enter')
    await expect(menu(page)).toContainText(`${filtered.total} splices in the filter`)
    const { critical, urgent } = filtered.hidden
    await expect(menu(page)).toContainText(`Left out: ${critical > 0 ? `${critical} critical, ` : ''}${urgent} urgent`)
    await expect(menu(page).getByRole('menuitem')).toHaveCount(5)
    expect(await seriousBarriers(page)).toEqual([])
    await expect(menu(page).getByRole('menuitem', { name: /^CSV/ })).toBeFocused()
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')])
    expect(download.suggestedFilename()).toMatch(/^splices-\d{4}-\d\d-\d\d\.csv$/)
    const lines = fs.readFileSync(await download.path(), 'utf8').trim().split('\r\n')
    expect(lines).toHaveLength((filtered.total ?? 0) + 1)
    await page.keyboard.press('Escape')
    await expect(menu(page)).toBeHidden()
  })

  test('GPX and KML are well-formed to the browser’s own XML parser, with a place for every splice of the filter', async ({ page }) => {
    const { total } = await listed(page, 'class=critical,urgent&limit=1')
    await page.goto('/calculator')
    for (const [file, name] of [['splices.gpx', 'wpt'], ['splices.kml', 'Placemark']] as const) {
      const text = await (await page.request.get(`/api/v1/${file}?class=critical,urgent`)).text()
      const found = await page.evaluate(([xml = '', tag = '']) => {
        const document = new DOMParser().parseFromString(xml, 'application/xml')
        return { errors: document.querySelectorAll('parsererror').length, count: document.getElementsByTagName(tag).length }
      }, [text, name])
      expect(found, file).toEqual({ errors: 0, count: total })
    }
  })

  test('an address with a box or a filter that is none is refused with a remedy', async ({ page }) => {
    for (const query of ['bbox=1,2,3', 'class=bad', 'circuit=999999', 'cursor=x']) {
      const answer = await page.request.get(`/api/v1/splices.kml?${query}`)
      expect(answer.status(), query).toBe(400)
      expect(problem.parse(await answer.json()).remedy, query).toMatch(/\.$/)
    }
  })

  test('where no map is drawn the picture holds the strip alone and says so', async ({ page }) => {
    const [worst] = (await listed(page, 'class=critical&limit=1')).items
    await open(page, `?sel=splice-${worst?.id}`)
    await expect(page.locator('svg[data-strip]')).toBeVisible()
    const { widthPx, heightPx, colours } = await picture(page)
    expect(widthPx).toBeGreaterThan(1_200)
    expect(heightPx).toBeGreaterThan(400)
    expect(colours.length).toBeGreaterThan(50)
    await expect(page.getByText('It holds the strip alone: this browser draws no map.', { exact: true })).toBeVisible()
  })

  test('without map and strip there is no picture, and it says what to do', async ({ page }) => {
    await open(page)
    await button(page).click()
    await menu(page).getByRole('menuitem', { name: /^PNG/ }).click()
    await expect(page.getByText('There is nothing to draw.', { exact: true })).toBeVisible()
  })

  for (const theme of ['light', 'dark'] as const) {
    test(`keeps nobody out on a phone, ${theme}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: theme })
      await page.setViewportSize({ width: 390, height: 844 })
      await open(page, '?view=list')
      await button(page).click()
      await expect(menu(page)).toBeInViewport({ ratio: 1 })
      expect(await overhang(page)).toBe(0)
      expect(await seriousBarriers(page)).toEqual([])
    })
  }

  test('a picture holds the map as it is drawn, and files can keep to what it shows', { tag: '@map' }, async ({ page }) => {
    const [worst] = (await listed(page, 'class=critical&limit=1')).items
    await open(page, `?sel=splice-${worst?.id}`)
    await expect(page.locator('[data-network-map]')).toHaveAttribute('data-idle', '1', { timeout: 120_000 })
    const map = await page.locator('#plan').boundingBox()
    const told = expect(page.getByText('It holds the map and the strip.', { exact: true })).toBeVisible() // a notice that goes while a slow machine still looks at the picture
    const [{ heightPx, colours }] = await Promise.all([picture(page), told])
    expect(heightPx).toBeGreaterThan(2 * (map?.height ?? 0))
    expect(colours).toContain('244,242,237') // the land of the light map, components/map/class-colours
    const { total } = await listed(page, 'limit=1')
    await button(page).click()
    await menu(page).getByRole('menuitemcheckbox', { name: 'Only what the map shows' }).click()
    await expect(menu(page)).toContainText('on the map and in the filter')
    const href = await menu(page).getByRole('menuitem', { name: /^GeoJSON/ }).getAttribute('href')
    expect(href).toContain('bbox=')
    const { features } = (await (await page.request.get(href ?? '')).json()) as { features: unknown[] }
    expect(features.length).toBeGreaterThan(0)
    expect(features.length).toBeLessThan(total ?? 0)
    await expect(menu(page)).toContainText(`${features.length} splices on the map`)
  })
})
