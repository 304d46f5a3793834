import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { z } from 'zod'
import { circuitHealth, circuitSummary } from '@/lib/contract/contract'
import { stateJson } from '@/lib/contract/api'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

const circuits = async (page: Page) =>
  z.object({ items: z.array(circuitSummary) }).parse(await (await page.request.get('/api/v1/circuits')).json()).items
const rows = (page: Page) => page.getByRole('table', { name: 'Circuits by condition' }).locator('tbody tr')

test.describe('Health', () => {
  test('compares every circuit and adds up the network', async ({ page }) => {
    const all = await circuits(page)
    const { counts } = stateJson.parse(await (await page.request.get('/api/v1/state')).json())
    await page.goto('/health')
    await expect(rows(page)).toHaveCount(all.length)
    const foot = page.locator('tfoot')
    await expect(foot).toContainText(`${all.length} circuits`)
    await expect(foot).toContainText(`${counts.critical} critical, ${counts.urgent} urgent`)
    // Every column is on the screen of a desk: none is for scrolling sideways.
    expect(await page.getByRole('table').evaluate((table) => table.getBoundingClientRect().right - innerWidth)).toBeLessThanOrEqual(0)
  })

  test('starts with the worst and sorts by keyboard, saying the order aloud', async ({ page }) => {
    const all = await circuits(page)
    await page.goto('/health')
    await expect(rows(page).first()).toContainText('critical')
    const byName = page.getByRole('button', { name: 'Circuit', exact: true })
    await byName.focus()
    await page.keyboard.press('Enter')
    await expect(page.getByRole('columnheader', { name: 'Circuit', exact: true })).toHaveAttribute('aria-sort', 'ascending')
    const names = all.map((c) => c.name).sort((a, b) => a.localeCompare(b, 'en', { numeric: true }))
    await expect(rows(page).first()).toContainText(names[0] ?? '')
    await page.keyboard.press('Enter')
    await expect(page.getByRole('columnheader', { name: 'Circuit', exact: true })).toHaveAttribute('aria-sort', 'descending')
    await expect(rows(page).first()).toContainText(names.at(-1) ?? '')
  })

  test('tells what was looked at from what proves something: a circuit flown only at too little load', async ({ page }) => {
    const flown = (await circuits(page)).find((c) => c.name === '3410')
    const health = circuitHealth.parse(await (await page.request.get(`/api/v1/circuits/${flown?.id}/health`)).json())
    expect(health.coverage).toMatchObject({ share: 1, conclusive_share: 0 })
    await page.goto('/health')
    const row = rows(page).filter({ has: page.getByRole('link', { name: '3410', exact: true }) })
    await expect(row.getByRole('cell').nth(8)).toHaveText(/^0\s*%$/)
    await expect(row.getByRole('cell').nth(3)).toHaveText('251 unknown')
    await expect(row.getByRole('cell').nth(7)).toHaveText(/^100\s*%$/)
    await row.getByRole('link', { name: '3410', exact: true }).click()
    await expect(page.getByText(/^0% looked at conclusively\. 100% looked at, whatever it could show\./)).toBeVisible()
    await page.goBack()
    await expect(page).toHaveURL(/\/health$/)
  })

  test('shows beside a circuit\'s splices the urgent readings that may be of it, and leads to their review', async ({ page }) => {
    const doubtful = (await circuits(page)).find((c) => c.unsettled.critical + c.unsettled.urgent > 0)
    if (!doubtful) throw new Error('The demo has no urgent reading in review.')
    expect(['urgent', 'critical']).toContain(doubtful.worst_class)
    await page.goto('/health')
    const row = rows(page).filter({ has: page.getByRole('link', { name: doubtful.name, exact: true }) })
    await row.getByRole('link', { name: /^\+\d+ (critical|urgent).*place not settled$/ }).click()
    await expect(page).toHaveURL(new RegExp(`/intake/review\\?reading=${doubtful.unsettled.reading_id}`))
    await page.goto(`/circuits/${doubtful.id}`)
    await expect(page.getByRole('link', { name: /place not settled$/ })).toBeVisible()
  })

  test('leads with what is overdue since it was found', async ({ page }) => {
    const worst = (await circuits(page))[0]
    const { overdue, past_response: late } = circuitHealth.parse(await (await page.request.get(`/api/v1/circuits/${worst?.id}/health`)).json())
    const all = overdue.critical + overdue.urgent + overdue.degraded
    expect(all).toBeGreaterThan(0)
    await page.goto('/health')
    const cell = rows(page).first().getByRole('cell').nth(6)
    const sinceLearned = late.critical + late.urgent + late.degraded
    const also = sinceLearned === 0 ? '' : `counted from when it came in here: ${sinceLearned}`
    await expect(cell).toHaveText(new RegExp(`^${all} overdue.*longest ${overdue.longest?.splice}, found ${overdue.longest?.days} days? ago${also}$`))
    await cell.getByRole('link', { name: overdue.longest?.splice }).click()
    await expect(page).toHaveURL(new RegExp(`/splices/${overdue.longest?.id}$`))
    await expect(page.getByText(/^Found .+ ago/)).toContainText(`${overdue.longest?.days} days ago`)
  })

  test('sorts on a phone, where the headings have no room', async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 844 })
    await page.goto('/health')
    await page.getByRole('combobox', { name: 'Sort by' }).selectOption({ label: 'Sort: conclusively' })
    await expect(rows(page).first()).toContainText('3410')
  })

  test('goes into a spreadsheet with a row a circuit', async ({ page }) => {
    await page.goto('/health')
    const coming = page.waitForEvent('download')
    await page.getByRole('link', { name: 'Save as CSV' }).click()
    const lines = (await readFile(await (await coming).path(), 'utf8')).trim().split('\r\n')
    expect(lines[0]).toContain('looked_at_share,conclusive_share')
    expect(lines).toHaveLength(1 + (await circuits(page)).length)
  })

  test('leads to a circuit', async ({ page }) => {
    await page.goto('/health')
    const link = rows(page).first().getByRole('rowheader').getByRole('link')
    const name = await link.innerText()
    await link.click()
    await expect(page.getByRole('heading', { level: 1, name })).toBeVisible()
  })

  test('has no serious barrier in light, in dark, and on a phone', async ({ browser, baseURL }) => {
    for (const colorScheme of ['light', 'dark'] as const) {
      for (const viewport of [{ width: 1440, height: 900 }, { width: 390, height: 844 }]) {
        const page = await (await browser.newContext({ baseURL, colorScheme, viewport })).newPage()
        await page.goto('/health')
        expect(await seriousBarriers(page)).toEqual([])
        await page.context().close()
      }
    }
  })
})
