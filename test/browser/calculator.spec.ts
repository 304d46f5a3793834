import type { Page } from '@playwright/test'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

/** Facts of the trade, common practice, no published source: Bobolink over a foot, sides of 10 and 53 µΩ on a conductor of 12 µΩ. */
const BOBOLINK = '/calculator?conductor=Bobolink&a=10&b=53&c=12&span=0.3048'
const DRAKE_PICTURE = '/calculator?by=infrared&conductor=Drake&ts=95&tc=62&air=20&i=900&emis=0.8&sun=none&dist=20&ifov=0.34'

const field = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true })
const result = (page: Page) => page.getByRole('article', { name: 'Result' })

test.describe('Calculator', () => {
  test('is reached from the navigation and filled in by keyboard alone: 10 and 53 on 12 give 4.42 on the worse side', async ({ page }) => {
    await page.goto('/health')
    await page.getByRole('navigation', { name: 'Main', exact: true }).getByRole('link', { name: 'Calculator' }).click()
    await expect(page.getByRole('heading', { name: 'Write the three readings' })).toBeVisible()
    await page.getByRole('button', { name: 'US units: feet, °F' }).or(page.getByRole('radio', { name: 'US units: feet, °F' })).click()
    await field(page, 'Side A').focus()
    for (const typed of ['10', '53', '12', '12']) {
      await page.keyboard.type(typed)
      await page.keyboard.press('Tab')
    }
    await page.getByRole('combobox', { name: 'Conductor, code word' }).fill('Bobolink')
    await expect(result(page)).toContainText('4.42times its conductor')
    await expect(result(page).getByRole('heading', { name: 'Critical' })).toBeVisible()
    await expect(result(page).getByText('Call the control room now.')).toBeVisible()
    await expect(result(page).getByRole('img', { name: /^Side B, ahead: measured 4\.42/ })).toBeVisible()
    await expect(result(page).getByText('not a rating')).toBeVisible()
    await expect(page).toHaveURL(/span=0\.3048/)
  })

  test('a case is its address: opened again it says the same, in the other units too', async ({ page }) => {
    await page.goto(BOBOLINK)
    await expect(result(page)).toContainText('4.42')
    const limit = await result(page).getByRole('region', { name: 'What may it carry?' }).getByText('per phase').first().innerText()
    expect(limit).toMatch(/^\d+ ?A per phase/)
    await page.reload()
    await expect(result(page)).toContainText(limit)
  })

  test('shows the working, from the readings to the current', async ({ page }) => {
    await page.goto(BOBOLINK)
    const working = result(page).getByRole('group').filter({ hasText: 'Show the working' })
    await working.getByText('Show the working').click()
    await expect(working.getByText('4.4167', { exact: true }).first()).toBeVisible()
    await expect(working.getByText('L = min(n I, S)')).toBeVisible()
  })

  test('catches on the spot what spoils a reading', async ({ page }) => {
    await page.goto(BOBOLINK)
    await expect(result(page).getByRole('heading', { name: 'What spoils this reading' })).toBeHidden()
    await page.getByRole('combobox', { name: 'Conductor, code word' }).fill('Drake')
    await expect(result(page)).toContainText(/It would fit [^:]*Bobolink/)
    await expect(page.getByRole('combobox', { name: 'Conductor, code word' })).toHaveAccessibleDescription(/Does not fit/)
    await page.getByRole('combobox', { name: 'Conductor, code word' }).fill('Bobolink')
    await field(page, 'Side B').fill('12')
    await field(page, 'Conductor').fill('53')
    await expect(field(page, 'Conductor')).toHaveAccessibleDescription('Swapped with side B?')
    await field(page, 'Side B').fill('1,200')
    await expect(field(page, 'Side B')).toHaveAccessibleDescription('Write 1200 or 1.2: the comma may mean either.')
    await expect(field(page, 'Side B')).toHaveValue('1,200')
    await field(page, 'Side B').fill('0.05')
    await expect(field(page, 'Side B')).toHaveAccessibleDescription(/cannot be right.*milliohm/)
  })

  test('says what was refused in place of the answer, and calls nothing sound that was read within the crimp', async ({ page }) => {
    await page.goto('/calculator')
    await field(page, 'Side A').fill('-3')
    await expect(page.getByText('Side A: -3 µΩ cannot be right')).toBeVisible()
    await field(page, 'Side A').fill('1,200')
    await expect(page.getByText('Side A: Write 1200 or 1.2')).toBeVisible()
    await page.goto('/calculator?conductor=Drake&a=15&b=14&c=21.5&span=0.3048&inboard=0.0203')
    await expect(result(page).getByRole('heading', { name: 'Not known' })).toBeVisible()
    await expect(result(page)).toContainText('low confidence')
    await expect(result(page)).toContainText('at least')
  })

  test('shows an example of a picture on the tab of pictures', async ({ page }) => {
    await page.goto('/calculator?by=infrared')
    await page.getByRole('button', { name: 'Show an example' }).click()
    await expect(page.getByRole('radio', { name: 'Infrared' })).toBeChecked()
    await expect(result(page).getByRole('img', { name: /^Infrared: measured/ })).toBeVisible()
    expect(await result(page).evaluate((card) => card.scrollHeight - card.clientHeight)).toBe(0)
  })

  test('reckons an infrared picture, and says what it would take where one proves nothing', async ({ page }) => {
    await page.goto(DRAKE_PICTURE)
    await expect(result(page).getByRole('img', { name: /^Infrared: measured/ })).toBeVisible()
    await expect(result(page)).toContainText('Wind that the conductor shows')
    await page.goto('/calculator?by=infrared&conductor=Drake&ts=21.5&tc=21&air=20&i=120&emis=0.8&sun=none&dist=200&ifov=0.34')
    await expect(result(page).getByRole('heading', { name: 'Not known' })).toBeVisible()
    await expect(result(page)).toContainText(/Come back at about [\d,]+ A or more/)
    await expect(result(page)).toContainText('Too few pixels over the barrel')
    await expect(result(page).getByRole('region', { name: 'What may it carry?' })).toContainText(/ask the rating engineer/i)
  })

  test('stores nothing: what is typed is never sent', async ({ page }) => {
    await page.goto('/calculator')
    const sent: string[] = []
    page.on('request', (r) => {
      if (r.method() !== 'GET' || new URL(r.url()).searchParams.has('a')) sent.push(`${r.method()} ${r.url()}`)
    })
    await page.getByRole('button', { name: 'Show an example' }).click()
    await expect(result(page)).toContainText('4.42')
    await page.getByRole('button', { name: 'Clear' }).click()
    await expect(page.getByRole('heading', { name: 'Write the three readings' })).toBeVisible()
    await expect(page).toHaveURL(/\/calculator$/)
    await page.goBack()
    await expect(result(page)).toContainText('4.42')
    expect(sent).toEqual([])
  })

  test.describe('without a network', () => {
    test.use({ expectedErrors: [/ERR_INTERNET_DISCONNECTED|Failed to fetch/] })

    test('goes on working once it is open', async ({ page, context }) => {
      await page.goto('/calculator')
      await expect(page.getByRole('heading', { name: 'Write the three readings' })).toBeVisible()
      await context.setOffline(true)
      await field(page, 'Side A').fill('10')
      await field(page, 'Side B').fill('53')
      await field(page, 'Conductor').fill('12')
      await expect(result(page)).toContainText('4.42')
      await page.getByRole('radio', { name: 'Infrared' }).click()
      await field(page, 'Splice').fill('60')
      await expect(result(page)).toContainText('Not known')
      await page.getByRole('radio', { name: 'Resistance' }).click()
      await expect(result(page)).toContainText('4.42')
    })
  })

  test('fits a phone, and print leaves out what only a screen needs', async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 844 })
    await page.goto(BOBOLINK)
    await expect(result(page)).toContainText('4.42')
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
    await page.getByRole('button', { name: /^Critical 4\.42/ }).click()
    await expect(result(page).getByRole('heading', { name: 'Critical' })).toBeInViewport()
    await expect(page.getByRole('button', { name: /^Critical 4\.42/ })).toHaveCount(0)
    await page.emulateMedia({ media: 'print' })
    await expect(page.getByRole('button', { name: 'Clear' })).toBeHidden()
    await expect(page.getByText(/^Printed at/)).toBeVisible()
  })

  test('has no serious barrier in light, in dark, and on a phone', async ({ browser, baseURL }) => {
    for (const colorScheme of ['light', 'dark'] as const) {
      for (const [path, viewport] of [
        [`${BOBOLINK}&cspan=0.28`, { width: 1440, height: 900 }],
        [DRAKE_PICTURE, { width: 390, height: 844 }],
      ] as const) {
        const page = await (await browser.newContext({ baseURL, colorScheme, viewport })).newPage()
        await page.goto(path)
        await expect(result(page)).toBeVisible()
        expect(await seriousBarriers(page)).toEqual([])
        await page.context().close()
      }
    }
  })
})
