import type { Page } from '@playwright/test'
import { formatDateTime } from '@/lib/units/time'
import { changes } from '@/lib/contract/changes'
import { problem } from '@/lib/contract/problem'
import { settings } from '@/lib/contract/settings'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'
import { overhang, state } from './imports'

const LONG_AGO = '2020-01-01T00:00:00Z'
const told = async (page: Page, query: string) => changes.parse(await (await page.request.get(`/api/v1/changes?${query}`)).json())
const zone = async (page: Page) => settings.parse(await (await page.request.get('/api/v1/settings')).json()).time_zone
const counts = (page: Page) => page.getByRole('list', { name: 'How much changed' })
const classes = (page: Page) => page.getByRole('table', { name: 'Classes that changed' })

async function open(page: Page, query = `since=${LONG_AGO}`) {
  await page.goto(`/operations/changes?${query}`)
  await expect(counts(page)).toBeVisible()
}

test.describe('what changed', () => {
  test('stands kind by kind, what became worse first, each splice a link to its sheet', async ({ page }) => {
    await open(page)
    const { parts } = await told(page, `since=${LONG_AGO}&limit=50`)
    for (const { count } of parts) await expect(counts(page)).toContainText(count.toLocaleString('en-US'))
    const found = parts.find((part) => part.kind === 'class')
    const [worst] = found?.items ?? []
    if (!worst || found?.kind !== 'class') throw new Error('No class has changed in the demo.')
    expect(worst).toMatchObject({ to: 'critical' })
    const row = classes(page).getByRole('row').nth(1)
    await expect(row).toContainText(worst.splice)
    await expect(row).toContainText(worst.why)
    await expect(row).toContainText(formatDateTime(Date.parse(worst.at), await zone(page)))
    await expect(page.getByText(`${found.directions.rise.toLocaleString('en-US')} worse`)).toBeVisible()
    await page.locator('#class').getByRole('button', { name: 'Show more' }).click()
    await expect.poll(() => classes(page).getByRole('row').count()).toBeGreaterThan(51)
    await row.getByRole('link', { name: worst.splice }).click()
    await expect(page).toHaveURL(new RegExp(`/splices/${worst.id}$`))
  })

  test('says which moment it means, by the choices, a day, and an address that can be sent', async ({ page }) => {
    await open(page)
    await page.getByRole('navigation', { name: 'Since when' }).getByRole('link', { name: '24 hours' }).click()
    await expect(page.getByRole('navigation', { name: 'Since when' }).getByRole('link', { name: '24 hours' })).toHaveAttribute('aria-current', 'true')
    const since = new URL(page.url()).searchParams.get('since') ?? ''
    expect(Math.abs(Date.now() - 86_400_000 - Date.parse(since))).toBeLessThan(10 * 60_000)
    await expect(page.getByText(`Since ${formatDateTime(Date.parse(since), await zone(page))}`)).toBeVisible()
    await page.getByLabel('Since the beginning of').fill('2026-03-08')
    // The day begins by the utility's clock: the demo is at UTC-7 before its clocks go forward on that day.
    await expect(page).toHaveURL(/since=2026-03-08T07%3A00%3A00\.000Z/)
    await expect(page.getByText('Since 8 Mar 2026 00:00 MST')).toBeVisible()
  })

  test('keeps to the circuits that are chosen', async ({ page }) => {
    const all = await told(page, `since=${LONG_AGO}&kind=class&limit=1`)
    const one = all.parts[0]?.kind === 'class' ? all.parts[0].items[0] : undefined
    if (!one) throw new Error('No class has changed in the demo.')
    await open(page, `since=${LONG_AGO}&circuit=${one.circuit_id}`)
    const [part] = (await told(page, `since=${LONG_AGO}&kind=class&limit=1&circuit=${one.circuit_id}`)).parts
    expect(part?.count).toBeLessThan(all.parts[0]?.count ?? 0)
    await expect(counts(page)).toContainText(`${part?.count.toLocaleString('en-US')} classes changed`)
    await expect(page.getByText(`on circuit ${one.circuit}.`)).toBeVisible()
    await expect(page.getByRole('link', { name: 'Operations' }).last()).toHaveAttribute('href', `/operations?circuit=${one.circuit_id}`)
  })

  test('says plainly that nothing changed, and what waits all the same', async ({ page }) => {
    await open(page, `since=${new Date(Date.now() + 60_000).toISOString()}`)
    await expect(page.getByRole('heading', { name: /^Nothing changed since / })).toBeVisible()
    const { review_count: waiting } = await state(page)
    await expect(counts(page)).toContainText(`${waiting} placements wait now`)
    await expect(page.getByRole('table', { name: 'Placements waiting now' })).toBeVisible()
  })

  test.describe('where the server fails', () => {
    test.use({ expectedErrors: [/500/] })
    test('says so with a remedy, and asks again', async ({ page }) => {
      await page.route('**/api/v1/changes?*', (route) => route.fulfill({ status: 500, contentType: 'text/plain', body: 'x' }))
      await page.goto(`/operations/changes?since=${LONG_AGO}`)
      await expect(page.locator('main').getByRole('alert')).toContainText('The server answered 500')
      await page.unroute('**/api/v1/changes?*')
      await page.getByRole('button', { name: 'Try again' }).click()
      await expect(counts(page)).toBeVisible()
    })
  })

  test('an address without a moment, or with none, becomes that of the last visit', async ({ page, context, baseURL }) => {
    const last = new Date(Date.now() - 3 * 86_400_000).toISOString()
    await context.addCookies([{ name: 'visit', value: encodeURIComponent(`~${last}`), url: baseURL ?? '' }])
    await page.goto('/operations/changes?since=yesterday')
    await expect(page).toHaveURL(new RegExp(`since=${encodeURIComponent(last).replaceAll('.', '\\.')}`))
    await expect(page.getByText(`Since your last visit to Operations in this browser, ${formatDateTime(Date.parse(last), await zone(page))}`)).toBeVisible()
    await expect(page.getByRole('link', { name: 'Last visit' })).toHaveAttribute('aria-current', 'true')
  })

  test('Operations leads there, counts since the last visit, moves nothing when the count comes, and remembers on leaving', async ({ page, context, baseURL }) => {
    const last = new Date(Date.now() - 2 * 3_600_000).toISOString()
    await context.addCookies([{ name: 'visit', value: encodeURIComponent(`~${last}`), url: baseURL ?? '' }])
    let release = (): void => undefined
    const held = new Promise<void>((resolve) => { release = resolve })
    await page.route('**/api/v1/changes?*', async (route) => { await held; await route.continue() })
    await page.goto('/operations')
    const link = page.getByRole('link', { name: `Changed since ${formatDateTime(Date.parse(last), await zone(page))}` })
    await expect(link).toBeVisible()
    const list = page.getByRole('listbox', { name: 'Splices, worst first' })
    await expect(list.getByRole('option').first()).toBeAttached()
    const before = await list.boundingBox()
    const answered = page.waitForResponse('**/api/v1/changes?*')
    release()
    await answered
    await expect(page.locator('p').filter({ has: link })).toContainText(/readings?|class/)
    expect(await list.boundingBox()).toEqual(before)
    await link.focus()
    await page.keyboard.press('Enter')
    await expect(page.getByRole('heading', { name: 'What changed' })).toBeVisible()
    await page.goto('/health')
    const kept = (await context.cookies()).find(({ name }) => name === 'visit')
    const [previous, seen] = decodeURIComponent(kept?.value ?? '').split('~')
    expect(previous).toBe(last)
    expect(Math.abs(Date.parse(seen ?? '') - Date.now())).toBeLessThan(120_000)
  })

  test('is refused by the API with a remedy where the moment or the cursor is none', async ({ page }) => {
    for (const query of ['', 'since=yesterday', `since=${LONG_AGO}&cursor=x`, `since=${LONG_AGO}&kind=class&cursor=x`, `since=${LONG_AGO}&kind=weather`, `since=${LONG_AGO}&circuit=999999`]) {
      const answer = await page.request.get(`/api/v1/changes?${query}`)
      expect(answer.status(), query).toBe(400)
      expect(problem.parse(await answer.json()).remedy, query).toMatch(/\.$/)
    }
  })

  for (const theme of ['light', 'dark'] as const) {
    test(`keeps nobody out, ${theme}, at a desk and on a phone, where nothing scrolls sideways`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: theme })
      await open(page)
      expect(await seriousBarriers(page)).toEqual([])
      await page.setViewportSize({ width: 390, height: 844 })
      await expect(classes(page)).toBeVisible()
      expect(await overhang(page)).toBe(0)
      expect(await seriousBarriers(page)).toEqual([])
    })
  }

  test('goes on paper with its mark and without its choices', async ({ page }) => {
    await open(page)
    await page.emulateMedia({ media: 'print' })
    const { information_mark: mark } = settings.parse(await (await page.request.get('/api/v1/settings')).json())
    await expect(page.getByText(mark || 'No information-handling mark is set').first()).toBeVisible()
    await expect(page.getByRole('navigation', { name: 'Since when' })).toBeHidden()
    await expect(page.getByText(/^Printed at /)).toBeVisible()
    await expect(classes(page)).toBeVisible()
  })
})
