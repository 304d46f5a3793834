import type { Page } from '@playwright/test'
import { callPage, lookAgain, type LookAgainJson } from '@/lib/contract/calls'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

const again = async (page: Page): Promise<LookAgainJson> => lookAgain.parse(await (await page.request.get('/api/v1/look-again')).json())
/** Not of the circuit whose worst sheet other tests print on one page. */
const notPrinted = ({ items }: LookAgainJson) => items.find(({ circuit }) => circuit !== '6910')
const worst = async (page: Page) => {
  const first = notPrinted(await again(page))
  if (!first) throw new Error('The demo has nothing urgent or critical.')
  return first
}
const calls = (page: Page) => page.getByRole('list', { name: 'Calls, newest first' })
const dialog = (page: Page) => page.getByRole('dialog')
const clockIn = (hours: number) => new Date(Date.now() + hours * 3_600_000).toISOString().slice(11, 16)

/** As one of our own pages asks. */
const asOurs = (origin: string | undefined) => ({ Origin: origin ?? '' })

/** A peak-load period from some hours before now to some after it. */
async function peak(page: Page, origin: string | undefined, fromHours: number, toHours: number) {
  const answer = await page.request.put('/api/v1/settings', { headers: asOurs(origin), data: { time_zone: 'UTC', peak_periods: [{ from: clockIn(fromHours), to: clockIn(toHours) }] } })
  expect(answer.status()).toBe(200)
}

test.describe('Calls', () => {
  let stored: unknown
  test.beforeEach(async ({ page }) => {
    stored ??= await (await page.request.get('/api/v1/settings')).json()
  })
  test.afterAll(async ({ request, baseURL }) => {
    await request.put('/api/v1/settings', { headers: asOurs(baseURL), data: stored })
  })

  test('a call recorded on the sheet stands in the log of the next shift, and a wrong one is struck and stays', async ({ page }) => {
    const of = await worst(page)
    await page.goto(`/splices/${of.splice_id}`)
    await page.getByRole('button', { name: 'Record a call' }).click()
    await dialog(page).getByRole('button', { name: 'Note the call' }).click()
    await expect(dialog(page).getByText('Name who called.')).toBeVisible()
    await expect(dialog(page).getByText('Say what was decided, be it nothing yet.')).toBeVisible()
    expect(await seriousBarriers(page)).toEqual([])
    await dialog(page).getByLabel('Who called').fill('L. Engineer')
    await dialog(page).getByLabel('Whom').fill('Control room, desk 2')
    await dialog(page).getByLabel('Reclosing left on').check()
    await dialog(page).getByLabel('Reclosing blocked').check()
    await expect(dialog(page).getByLabel('Reclosing left on')).not.toBeChecked()
    await dialog(page).getByLabel('Load relief').check()
    await dialog(page).getByLabel('Note').fill('Asked for 400 A at most')
    await dialog(page).getByRole('button', { name: 'Note the call' }).click()
    await expect(dialog(page)).toBeHidden()
    const section = page.locator('section', { has: page.getByRole('heading', { name: 'Calls', exact: true }) })
    await expect(section).toContainText('L. Engineer called Control room, desk 2. Load relief, reclosing blocked. Asked for 400 A at most')

    await page.goto('/operations/calls')
    const entry = calls(page).getByRole('listitem').filter({ hasText: 'Asked for 400 A at most' }).first()
    await expect(entry).toContainText(of.splice)
    await expect(entry).toContainText(of.circuit)
    await entry.getByRole('button', { name: /^Strike/ }).click()
    await dialog(page).getByLabel('Why').fill('The figure was 450 A')
    await expect(dialog(page).getByLabel('Struck by')).toHaveValue('L. Engineer')
    await dialog(page).getByRole('button', { name: 'Strike it' }).click()
    await expect(entry).toContainText(/Struck by L\. Engineer, .*: The figure was 450 A\./)
    await expect(entry).toContainText('Asked for 400 A at most')
    await expect(entry.getByRole('button', { name: /^Strike/ })).toHaveCount(0)
  })

  test('the log is narrowed by circuit and since when, and its address opens it so', async ({ page, baseURL }) => {
    const of = await worst(page)
    const at = new Date(Date.now() - 30 * 3_600_000).toISOString()
    const early = await page.request.post(`/api/v1/splices/${of.splice_id}/calls`, { headers: asOurs(baseURL), data: { kind: 'call', by: 'N. Shift', whom: 'Planner', decided: ['nothing-yet'], nothing_why: 'No outage before Friday', at } })
    const { key } = await early.json() as { key: string }
    await page.goto('/operations/calls')
    await expect(page.getByRole('status')).toContainText('since')
    await expect(page.locator(`#${key}`)).toHaveCount(0)
    await page.getByRole('combobox', { name: 'Since' }).selectOption({ label: 'Last 7 days' })
    await expect(page.locator(`#${key}`)).toContainText('Nothing yet: No outage before Friday')
    await page.getByRole('button', { name: 'Circuit: all' }).click()
    await page.getByRole('group', { name: 'Circuit' }).getByRole('checkbox').first().waitFor()
    await page.keyboard.press('Escape')
    await page.goto(`/operations/calls?since=7d&circuit=${of.circuit_id}#${key}`)
    await expect(page.locator(`#${key}`)).toBeInViewport()
    const narrowed = callPage.parse(await (await page.request.get(`/api/v1/calls?circuit=${of.circuit_id}`)).json()).items
    expect(new Set(narrowed.map(({ circuit_id: circuit }) => circuit))).toEqual(new Set([of.circuit_id]))
    const refused = await page.request.get('/api/v1/calls?since=yesterday')
    expect([refused.status(), (await refused.json() as { code: string }).code]).toEqual([400, 'invalid'])
  })

  test('what is urgent or critical comes back in the peak-load period until somebody looked, and the next period is named', async ({ page, baseURL }) => {
    await peak(page, baseURL, -2, 2)
    const before = await again(page)
    const of = notPrinted(before)
    if (!of) throw new Error('The demo has nothing urgent or critical.')
    await page.goto('/operations')
    await expect(page.getByRole('link', { name: `${before.acute - before.looked} to look at again until` })).toBeVisible()
    await page.getByRole('link', { name: /to look at again until/ }).click()
    const list = page.getByRole('list', { name: 'To look at again, worst first' })
    const row = list.getByRole('listitem').filter({ has: page.getByRole('link', { name: of.splice, exact: true }) })
    await expect(page.getByText(/Next from .* \d\d:\d\d UTC\./)).toBeVisible()
    await row.getByRole('button', { name: /^Looked at again/ }).click()
    await dialog(page).getByLabel('Who looked').fill('O. Operator')
    await dialog(page).getByLabel('What was seen').fill('No change at 610 A')
    await dialog(page).getByRole('button', { name: 'Note the look' }).click()
    await expect(row).toHaveCount(0)
    await expect(calls(page)).toContainText('O. Operator looked at it again. No change at 610 A')
    expect((await again(page)).looked).toBe(before.looked + 1)
    await peak(page, baseURL, 3, 5)
    await page.reload()
    await expect(page.getByRole('heading', { name: 'To look at again at the next peak period' })).toBeVisible()
    await expect(page.getByText(/^All \d+ urgent and critical come back until they are repaired\. Next peak-load period from/)).toBeVisible()
    await page.getByText('Show them').click()
    await expect(row).toBeVisible()
    await expect(row.getByRole('button')).toHaveCount(0)
  })

  for (const [size, width] of [['a desk', 1440], ['a phone', 390]] as const) {
    for (const theme of ['light', 'dark'] as const) {
      test(`on ${size}, ${theme}, nothing keeps people out or stands over the edge`, async ({ page, baseURL }) => {
        await peak(page, baseURL, -1, 1)
        await page.setViewportSize({ width, height: 844 })
        await page.emulateMedia({ colorScheme: theme })
        await page.goto('/operations/calls?since=all')
        await expect(calls(page).getByRole('listitem').first()).toBeVisible()
        expect(await seriousBarriers(page)).toEqual([])
        expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBeLessThanOrEqual(0)
      })
    }
  }
})
