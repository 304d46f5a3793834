import type { Page } from '@playwright/test'
import { importPage } from '@/lib/contract/intake'
import { expect, test } from './fixtures'
import { drop, importIdOf, open, state } from './imports'

test.describe('an import that is called off', () => {
  const header = 'reading_id,taken_at,lon,lat,platform,kind,side_a_uohm,side_b_uohm,conductor_uohm'
  const rows = (count: number, note = '') => `${header}${note && ',note'}\n` + Array.from({ length: count }, (_, i) => (
    `C-${i},2024-05-14T09:00:00Z,${(-113.9 + (i % 100) * 0.0001).toFixed(5)},47.76,ground,resistance,8,7,12${note && `,${note}`}\n`)).join('')
  const listed = async (page: Page, name: string) => importPage.parse(await (await page.request.get('/api/v1/imports?limit=20')).json()).items.filter((i) => i.file_name === name)

  test('while it runs in the background leaves nothing, and says so', async ({ page }) => {
    await open(page)
    const before = await state(page)
    await drop(page, 'called-off.csv', rows(30_000))
    await expect(page.getByRole('heading', { name: 'called-off.csv' })).toBeVisible()
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toBeEnabled({ timeout: 60_000 })
    await page.getByRole('button', { name: 'Import', exact: true }).click()
    await page.waitForURL(/\/intake\/\d+$/)
    await expect(page.getByText('This goes on when you close the page.')).toBeVisible()
    await page.getByRole('button', { name: 'Cancel import' }).click()
    await expect(page.locator('main').getByText(/^This import was cancell?ed\. Nothing of it was stored\./)).toBeVisible({ timeout: 30_000 })
    await expect(page.getByRole('button', { name: 'Cancel import' })).toHaveCount(0)
    const [cancelled] = await listed(page, 'called-off.csv')
    expect(cancelled).toMatchObject({ id: importIdOf(page), state: 'cancelled', report: null })
    const after = await state(page)
    expect({ counts: after.counts, review: after.review_count, urgent: after.urgent_count }).toEqual({
      counts: before.counts, review: before.review_count, urgent: before.urgent_count,
    })
  })

  test('while the file is still being sent leaves nothing on the server, and it can be sent again', async ({ page }) => {
    await open(page)
    await drop(page, 'half-sent.csv', rows(20_000, 'n'.repeat(300)))
    await expect(page.getByRole('heading', { name: 'half-sent.csv' })).toBeVisible()
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toBeEnabled({ timeout: 60_000 })
    // A slow line: the 8 MB would take half a minute.
    const line = await page.context().newCDPSession(page)
    await line.send('Network.enable')
    await line.send('Network.emulateNetworkConditions', { offline: false, latency: 0, downloadThroughput: -1, uploadThroughput: 250_000 })
    await page.getByRole('button', { name: 'Import', exact: true }).click()
    await expect(page.getByText('Sending half-sent.csv')).toBeVisible()
    await expect(page.getByText(/ of \d+(\.\d)? MB$/)).toBeVisible()
    await page.getByRole('button', { name: 'Stop sending' }).click()
    await expect(page.getByText('Sending half-sent.csv')).toHaveCount(0)
    await line.send('Network.emulateNetworkConditions', { offline: false, latency: 0, downloadThroughput: -1, uploadThroughput: -1 })
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toBeEnabled()
    expect(new URL(page.url()).pathname).toBe('/intake')
    expect(await listed(page, 'half-sent.csv')).toEqual([])

    await page.getByRole('button', { name: 'Import', exact: true }).click()
    await page.waitForURL(/\/intake\/\d+$/, { timeout: 60_000 })
    await page.getByRole('button', { name: 'Cancel import' }).click()
    await expect(page.locator('main').getByText(/^This import was cancell?ed\./)).toBeVisible({ timeout: 30_000 })
  })
})
