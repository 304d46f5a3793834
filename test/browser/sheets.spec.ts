import type { Page } from '@playwright/test'
import { lastTold } from '@/components/splice/due'
import { circuitHealth, circuitSummary, page as pageOf, spliceDetail, spliceList, type SpliceDetail } from '@/lib/contract/contract'
import { settings } from '@/lib/contract/settings'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

async function firstSplice(page: Page, query: string): Promise<SpliceDetail> {
  const { items } = spliceList.parse(await (await page.request.get(`/api/v1/splices?${query}&limit=1`)).json())
  if (!items[0]) throw new Error(`The demo has no splice for ${query}.`)
  return spliceDetail.parse(await (await page.request.get(`/api/v1/splices/${items[0].id}`)).json())
}

async function circuitId(page: Page, name: string): Promise<number> {
  const { items } = pageOf(circuitSummary).parse(await (await page.request.get('/api/v1/circuits')).json())
  return items.find((circuit) => circuit.name === name)?.id ?? 0
}

test.describe('the sheet of a splice', () => {
  test('says the class, what next and by when, why, and where, for a critical splice', async ({ page }) => {
    const splice = await firstSplice(page, 'class=critical&sort=worst')
    await page.goto(`/splices/${splice.id}`)
    await expect(page.getByRole('heading', { level: 1, name: splice.splice })).toBeVisible()
    await expect(page.getByText('Critical', { exact: true })).toBeVisible()
    await expect(page.getByText(lastTold(splice.history) ? /^Control room told(:| ).* noted by / : 'Call the control room now.').first()).toBeVisible()
    await expect(page.getByText('If it trips')).toBeVisible()
    await expect(page.getByText('Advice only:')).toHaveCount(1)
    for (const heading of ['Next', 'Why', 'Where', 'Readings', 'History']) {
      await expect(page.getByRole('heading', { name: heading, exact: true })).toBeVisible()
    }
    await expect(page.getByRole('img', { name: /^Side [AB].*measured \d+\.\d\d/ }).first()).toBeVisible()
    expect(await page.locator('main').innerText()).not.toMatch(/\bsafe\b|OK to energi[sz]e|undefined|NaN/i)
  })

  test('answers what operations asks, in its order, on a desktop without scrolling', async ({ page }) => {
    await page.setViewportSize({ width: 1440, height: 900 })
    // The worst with resistance read on both sides and pictures besides say the most.
    const { items } = spliceList.parse(await (await page.request.get(`/api/v1/splices?class=critical&sort=worst&limit=50&circuit=${await circuitId(page, '2310')}`)).json())
    const splice = items.find(({ splice: name }) => name === '2310-088') ?? items[0]
    await page.goto(`/splices/${splice?.id}`)
    const bottoms: number[] = []
    for (const question of ['Will it drop?', 'What it may carry', 'What flows now, at peak, after a contingency', 'Who loses supply', 'What isolates it', 'Who is called', 'If it trips']) {
      const heading = page.getByRole('heading', { level: 2, name: question, exact: true })
      await expect(heading).toBeVisible()
      bottoms.push(await heading.evaluate((of) => of.closest('section')?.getBoundingClientRect().bottom ?? Infinity))
    }
    expect(bottoms).toEqual(bottoms.toSorted((a, b) => a - b))
    expect(bottoms.at(-1)).toBeLessThanOrEqual(900)
    for (const heading of ['Next', 'Why', 'Limit in force', 'Placement', 'Remarks and pictures', 'Readings', 'History']) {
      const box = await page.getByRole('heading', { name: heading, exact: true }).boundingBox()
      expect((box?.y ?? Infinity) + (box?.height ?? 0), heading).toBeLessThanOrEqual(900)
    }
    expect(await page.evaluate(() => [scrollY, document.documentElement.scrollWidth <= innerWidth])).toEqual([0, true])
    expect(await page.getByRole('link', { name: 'Open in maps' }).getAttribute('href')).toBe(`geo:${splice?.lat.toFixed(6)},${splice?.lon.toFixed(6)}`)
  })

  test('takes from the keyboard who loses supply, what isolates it and who is called, and says by whom that is', async ({ page }) => {
    const splice = await firstSplice(page, `class=critical&sort=worst&circuit=${await circuitId(page, '1420')}`)
    const put = (data: object) => page.request.put(`/api/v1/circuits/${splice.circuit_id}/if-it-trips`, { headers: { Authorization: 'Bearer browser-test' }, data })
    const nothing = { loses_supply: null, isolated_by: null, called: null, on_site_h: null, repair_h: null, recall_h: null, noted_by: 'Browser test' }
    expect((await put(nothing)).ok()).toBe(true)
    try {
      await page.goto(`/splices/${splice.id}`)
      await expect(page.getByText('Call list not known: ask the line supervisor.')).toBeVisible()
      await page.getByRole('button', { name: /^Note it/ }).focus()
      await page.keyboard.press('Enter')
      const dialog = page.getByRole('dialog', { name: 'If 1420 trips' })
      await expect(dialog).toBeVisible()
      expect(await seriousBarriers(page)).toEqual([])
      await dialog.getByLabel('Who loses supply').fill('Saddle Pine, 2,600 customers')
      await dialog.getByLabel('Crew on site in').fill('many')
      await dialog.getByLabel('Noted by').fill('O. Operator')
      await page.keyboard.press('Enter')
      await expect(dialog.getByText('Enter hours from 0 to 168, or leave it empty.')).toBeVisible()
      await dialog.getByLabel('Crew on site in').fill('1.5')
      await page.keyboard.press('Enter')
      await expect(dialog).toHaveCount(0)
      await expect(page.getByText('Saddle Pine, 2,600 customers.')).toBeVisible()
      await expect(page.getByText(/^On site in 1\.5 h\. How long, what recall: not known/)).toBeVisible()
      await expect(page.getByText(/^Noted .* by O\. Operator\.$/)).toBeVisible()
      await expect(page.getByRole('button', { name: /^Correct it/ })).toBeVisible()
      await page.goto(`/circuits/${splice.circuit_id}`)
      await expect(page.getByText('Saddle Pine, 2,600 customers.')).toBeVisible()
    } finally {
      await put(nothing)
    }
  })

  test('keeps the file\'s own row one press away', async ({ page }) => {
    const splice = await firstSplice(page, 'class=critical&sort=worst')
    const reading = splice.readings[0]
    if (!reading) throw new Error('A critical splice without a reading.')
    await page.goto(`/splices/${splice.id}`)
    await page.getByRole('button', { name: /^row \d+$/ }).first().click()
    await expect(page.getByRole('dialog', { name: /as it stood in the file/ })).toContainText('Reading')
    // Each filled cell under the header that its file gave it.
    await expect(page.getByRole('dialog').getByRole('term').first()).toBeVisible()
  })

  test('puts coordinates on the clipboard', async ({ page, context }) => {
    await context.grantPermissions(['clipboard-read', 'clipboard-write'])
    const splice = await firstSplice(page, 'sort=worst')
    await page.goto(`/splices/${splice.id}`)
    await page.getByRole('button', { name: 'Copy coordinates' }).click()
    await expect(page.getByText('Copied', { exact: true })).toBeVisible()
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(`${splice.lat.toFixed(6)}, ${splice.lon.toFixed(6)}`)
  })

  test('goes on one sheet of paper with a twelfth of it left, in type that can be read, with when it was printed and when it lapses', async ({ page }) => {
    // The demo's worst; other tests make worse ones with long histories, which may go on.
    const splice = await firstSplice(page, `class=critical&sort=worst&circuit=${await circuitId(page, '6910')}`)
    await page.goto(`/splices/${splice.id}`)
    await page.emulateMedia({ media: 'print' })
    await expect(page.getByText(/Printed at .* Void after/)).toBeVisible()
    await expect(page.getByText(/As of /)).toBeVisible()
    await expect(page.getByRole('button', { name: 'Print' })).toBeHidden()
    const least = await page.locator('main').evaluate((main) => {
      const texts = document.createTreeWalker(main, NodeFilter.SHOW_TEXT)
      const sizes: number[] = []
      while (texts.nextNode()) {
        const of = texts.currentNode.parentElement
        if (of?.checkVisibility() && texts.currentNode.textContent?.trim()) sizes.push(parseFloat(getComputedStyle(of).fontSize))
      }
      return Math.min(...sizes)
    })
    expect(Math.round(least * 7.5) / 10).toBeGreaterThanOrEqual(7) // points, from pixels
    const pages = async (format: string, bottomMm: number) => {
      const rule = await page.addStyleTag({ content: `@page { margin-bottom: ${bottomMm}mm !important; }` })
      const pdf = await page.pdf({ format, printBackground: true })
      await rule.evaluate((element) => (element as Element).remove())
      return pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length
    }
    for (const format of ['A4', 'Letter']) {
      expect(await pages(format, 36), format).toBe(1) // 24 mm, a twelfth of the paper, besides its margin of 12 mm
      expect(await pages(format, 150), format).toBeGreaterThan(1) // what has no room goes on further sheets: nothing is shrunk to fit
    }
  })

  test('has only what came to pass after what operations needs: the history is the last to go on a second sheet', async ({ page }) => {
    const splice = await firstSplice(page, 'class=critical&sort=worst')
    await page.goto(`/splices/${splice.id}`)
    const headings = await page.locator('article h2').allInnerTexts()
    expect(headings.at(-1)).toBe('History')
    expect(headings).toEqual(expect.arrayContaining(['Next', 'What it may carry', 'Why', 'Where', 'Readings']))
  })

  test('is marked and numbered on every page where there are several', async ({ page }) => {
    const splice = await firstSplice(page, 'class=critical&sort=worst')
    const mark = settings.parse(await (await page.request.get('/api/v1/settings')).json()).information_mark
    await page.goto(`/circuits/${splice.circuit_id}`)
    const rules = await page.evaluate(() => [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules])
      .filter((rule) => rule instanceof CSSPageRule).map((rule) => rule.cssText).join(' '))
    expect(rules).toContain(`@top-left { content: "${mark || 'No information-handling mark is set'}"`)
    expect(rules).toContain('counter(page) " of " counter(pages)')
  })

  test('carries the mark, the recipient and every call on paper', async ({ page }) => {
    const before = settings.parse(await (await page.request.get('/api/v1/settings')).json())
    const splice = await firstSplice(page, 'class=critical&sort=worst')
    const put = (information_mark: string) =>
      page.request.put('/api/v1/settings', { headers: { Authorization: 'Bearer browser-test' }, data: { information_mark } })
    await put('Internal use')
    try {
      await page.goto(`/splices/${splice.id}`)
      await page.evaluate(() => {
        window.print = () => document.body.setAttribute('data-printed', '1')
      })
      await page.getByRole('button', { name: 'Print' }).click()
      await page.getByLabel('Recipient').fill('System operator, north desk')
      await page.keyboard.press('Enter')
      await expect(page.locator('body[data-printed]')).toHaveCount(1)
      await expect(page.getByRole('dialog')).toHaveCount(0)
      await page.emulateMedia({ media: 'print' })
      await expect(page.getByText('Internal use')).toBeVisible()
      await expect(page.getByText('Recipient: System operator, north desk')).toBeVisible()
      const acts = splice.history.filter((entry) => entry.kind !== 'assessment')
      expect(acts.length).toBeGreaterThan(1)
      const rows = page.getByRole('table', { name: 'History, newest first' }).getByRole('row')
      // A notice that a told line answers stands in that line, with its reading.
      const shown = (await rows.filter({ hasText: /Urgent notice|Control room told/ }).filter({ visible: true }).allInnerTexts()).join(' ')
      for (const entry of acts) if (entry.kind === 'notice' || entry.kind === 'told') expect(shown).toContain(entry.reading_key)
      await expect(rows.filter({ hasText: 'Control room told' }).filter({ visible: true }).first()).toBeVisible()
    } finally {
      await put(before.information_mark)
    }
  })

  test('leads to the map and comes back selected', { tag: '@map' }, async ({ page }) => {
    const splice = await firstSplice(page, 'class=urgent&sort=worst')
    await page.goto(`/splices/${splice.id}`)
    await page.getByRole('link', { name: 'Show on the map' }).click()
    await expect(page).toHaveURL(new RegExp(`sel=splice-${splice.id}`))
    await expect(page.locator('#splice-list [aria-selected="true"]')).toContainText(splice.splice)
  })

  test('of a splice that there is not, says so and offers a way on', async ({ page }) => {
    for (const path of ['/splices/2147483000', '/splices/abc', '/circuits/0']) {
      const answer = await page.request.get(path)
      expect(answer.status()).toBe(404)
      expect(await answer.text()).toContain('Nothing is kept at this address')
    }
  })

  test.describe('that there is not', () => {
    test.use({ expectedErrors: [/404/] })

    test('says so in its title and its heading too', async ({ page }) => {
      await page.goto('/splices/2147483000')
      await expect(page).toHaveTitle(/^Nothing at this address/)
      await expect(page.getByRole('heading', { level: 1 })).toHaveText('Nothing at this address')
    })
  })
})

test.describe('the sheet of a circuit', () => {
  test('rolls up its splices, its worst, its coverage and its sections', async ({ page }) => {
    const splice = await firstSplice(page, 'class=critical&sort=worst')
    const health = circuitHealth.parse(await (await page.request.get(`/api/v1/circuits/${splice.circuit_id}/health`)).json())
    await page.goto(`/circuits/${splice.circuit_id}`)
    await expect(page.getByRole('heading', { level: 1, name: splice.circuit })).toBeVisible()
    await expect(page.getByText(`${health.counts.critical} critical`, { exact: true })).toBeVisible()
    const { covered_span_phases: looked, conclusive_span_phases: conclusive, conclusive_stale_span_phases: stale, span_phase_count: all } = health.coverage
    const figure = (term: string) => page.locator('dt', { hasText: new RegExp(`^${term}$`) }).locator('+ dd')
    await expect(figure('Conclusively')).toContainText(`${(conclusive - stale).toLocaleString('en')} of ${all.toLocaleString('en')} spans and phases`)
    await expect(figure('Looked at, whatever it showed')).toContainText(`${looked.toLocaleString('en')} of ${all.toLocaleString('en')} spans and phases`)
    if (health.worst_splice) await expect(page.getByRole('link', { name: health.worst_splice.splice, exact: true }).first()).toBeVisible()
    const table = page.getByRole('table', { name: 'Splices of this circuit, worst first' })
    await expect(table.getByRole('row')).toHaveCount(1 + Math.min(500, health.splice_count))
  })
})

test('the sheets have no serious barrier, in light and dark, at a desk and on a phone', async ({ browser, baseURL, page: any }) => {
  const splice = await firstSplice(any, 'class=critical&sort=worst')
  const views = [
    { colorScheme: 'light', viewport: { width: 1440, height: 900 }, path: `/splices/${splice.id}` },
    { colorScheme: 'dark', viewport: { width: 390, height: 844 }, path: `/splices/${splice.id}` },
    { colorScheme: 'dark', viewport: { width: 1440, height: 900 }, path: `/circuits/${splice.circuit_id}` },
    { colorScheme: 'light', viewport: { width: 390, height: 844 }, path: `/circuits/${splice.circuit_id}` },
  ] as const
  for (const { path, ...options } of views) {
    const page = await (await browser.newContext({ baseURL, ...options })).newPage()
    await page.goto(path)
    expect(await seriousBarriers(page)).toEqual([])
    await page.context().close()
  }
})
