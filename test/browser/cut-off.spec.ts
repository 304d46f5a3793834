import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

test.use({ expectedErrors: [/ERR_INTERNET_DISCONNECTED|Failed to fetch/] })

for (const { at, viewport, colorScheme } of [
  { at: 'at a desk', viewport: { width: 1440, height: 900 }, colorScheme: 'light' as const },
  { at: 'on a phone in the dark', viewport: { width: 390, height: 844 }, colorScheme: 'dark' as const },
]) {
  test(`Operations with the network cut says of when it is, stays usable and recovers, ${at}`, async ({ page, context }) => {
    await page.emulateMedia({ colorScheme })
    await page.setViewportSize(viewport)
    const onPhone = viewport.width < 760
    await page.goto(onPhone ? '/operations?view=list' : '/operations')
    const rows = page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option')
    await expect(rows.nth(3)).toBeVisible()
    await rows.nth(1).click()
    const sheet = page.getByRole('complementary', { name: 'Splice sheet' })
    await expect(sheet.getByRole('heading').nth(1)).toBeVisible()

    await context.setOffline(true)
    const note = page.locator('[aria-live="polite"]').filter({ hasText: 'The server does not answer.' })
    await expect(note).toContainText(/What is shown is as of .*\d\d:\d\d .* and may be out of date/)
    expect(await seriousBarriers(page)).toEqual([])
    // What was loaded is still there: list, sheet, and the way between them.
    if (onPhone) await page.goBack()
    await expect(rows.nth(1)).toBeVisible()
    await rows.nth(4).click()
    await expect(sheet).toContainText('The server did not answer.')

    await context.setOffline(false)
    await expect(note).toHaveCount(0)
    await expect(page.getByText('The server answers again.').first()).toBeVisible()
    await expect(sheet).not.toContainText('The server did not answer.')
    await expect(sheet.getByRole('heading').nth(1)).toBeVisible()
  })
}
