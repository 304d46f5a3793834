import type { Page } from '@playwright/test'
import { circuitJoints, sectionList } from '@/lib/contract/loading'
import { spliceDetail } from '@/lib/contract/contract'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

/** The worst circuit of the demo: two critical splices and a dozen urgent ones. */
const WORST = '1420'
/** No telemetry in the demo. */
const WITHOUT_LOAD = '3420'

const idOf = async (page: Page, circuit: string): Promise<number> => {
  const { items } = sectionList.parse(await (await page.request.get('/api/v1/sections')).json())
  return items.find((section) => section.circuit === circuit)?.circuit_id ?? 0
}
const metric = (page: Page) => page.getByRole('radio', { name: 'Metric units: metres, °C' }).or(page.getByRole('radio', { name: 'Metric units: meters, °C' })).click()
const plot = (page: Page) => page.getByRole('slider', { name: new RegExp(`^Splices of ${WORST} along the line`) })
const passing = (page: Page) => page.getByRole('region', { name: /^Splices that would pass/ })
const limits = (page: Page) => page.getByRole('region', { name: 'What limits?' })
const slider = (page: Page, name: string) => page.getByRole('slider', { name: `${name}, slider` })

test.describe('Loading', () => {
  test('is reached from the navigation, asks for a circuit and shows the worst one', async ({ page }) => {
    await page.goto('/health')
    await page.getByRole('navigation', { name: 'Main', exact: true }).getByRole('link', { name: 'Loading' }).click()
    await expect(page.getByRole('heading', { name: 'Choose a circuit' })).toBeVisible()
    await page.getByRole('button', { name: `Show circuit ${WORST}, most urgent and critical` }).click()
    await expect(plot(page)).toBeVisible()
    await expect(page).toHaveURL(/circuit=\d+/)
  })

  test('takes a circuit by its name, and says which name no circuit has', async ({ page }) => {
    await page.goto(`/loading?circuit=${WORST}`)
    await expect(plot(page)).toBeVisible()
    // The demo's lines lie in mountains, and thinner air cools less.
    await expect(page.getByText(/elevation 3,281 ft, emissivity 0\.5/)).toBeVisible()
    await page.goto('/loading?circuit=no-such-line')
    await expect(page.getByRole('heading', { name: 'No circuit is called no-such-line' })).toBeVisible()
  })

  test('at rating weather its limit is the one on the splice’s own sheet', async ({ page }) => {
    const id = await idOf(page, WORST)
    await page.goto(`/loading?circuit=${id}&load=rating`)
    await expect(limits(page)).toContainText('at rating weather')
    const { joints } = circuitJoints.parse(await (await page.request.get(`/api/v1/circuits/${id}/joints`)).json())
    const name = (await limits(page).getByRole('link').first().innerText()).trim()
    const joint = joints.find(({ splice }) => splice === name)
    const detail = spliceDetail.parse(await (await page.request.get(`/api/v1/splices/${joint?.id}`)).json())
    const { line_a: lineA, mva } = detail.outlook?.limit ?? { line_a: NaN, mva: NaN }
    await expect(limits(page)).toContainText(new RegExp(`${Math.floor(lineA)} ?A per phase, ${Math.floor(mva ?? NaN)} MVA`))
  })

  test('opens at the rating with the limit first, never with an all-clear, and no splice is said to allow more than its section', async ({ page }) => {
    const id = await idOf(page, WORST)
    const { sections, joints } = circuitJoints.parse(await (await page.request.get(`/api/v1/circuits/${id}/joints`)).json())
    const count = (of: string) => joints.filter((joint) => joint.class === of).length
    await page.goto(`/loading?circuit=${id}`)
    const gist = page.getByRole('status').first()
    await expect(gist).toContainText(new RegExp(`^${WORST}: [\\d,]+ A per phase, limited by splice ${WORST}-\\d+ at .*\\d+ splices? would pass .* at the section’s rating`))
    await expect(gist).toContainText(new RegExp(`${count('critical')} critical, ${count('urgent')} urgent, ${count('unknown')} not known on this circuit: this does not clear them`))
    await page.getByRole('combobox', { name: 'Take' }).selectOption('Last known load')
    await expect(gist).toContainText(/at the load of \d+ \w+ \d{4}/)
    await expect(gist).toContainText('this does not clear them')
    await page.getByText('All splices as a table').click()
    const cells = page.getByRole('table', { name: 'All splices, in line order' }).locator('td[data-label="Allows"]')
    await expect(cells.filter({ hasText: /A, section$/ }).first()).toBeVisible()
    const allows = await cells.allInnerTexts()
    const mostA = Math.max(...sections.map(({ rating_a: ratingA }) => ratingA ?? Infinity))
    for (const text of allows) if (/\d/.test(text)) expect(Number.parseFloat(text.replace(/,(?=\d)/g, ''))).toBeLessThanOrEqual(mostA)
  })

  test('warmer air by keyboard: more splices pass, the hottest first, nothing is a rating, and no server is asked', async ({ page }) => {
    await page.goto(`/loading?circuit=${await idOf(page, WORST)}&load=rating`)
    await expect(passing(page)).toBeVisible()
    await metric(page)
    const before = await page.getByRole('status').first().innerText()
    const asked: string[] = []
    page.on('request', (request) => { if (request.url().includes('/api/v1/') && !request.url().endsWith('/state')) asked.push(request.url()) })
    await slider(page, 'Air').focus()
    for (let i = 0; i < 15; i++) await page.keyboard.press('ArrowRight')
    await expect(page.getByRole('textbox', { name: 'Air', exact: true })).toHaveValue('40')
    await expect(page).toHaveURL(/air=40/)
    await expect(page.getByText('Not a rating').first()).toBeVisible()
    await expect(limits(page)).toContainText('Not a rating')
    // Warmer air lowers nothing that operations were given: that figure still leads.
    await expect(limits(page)).toContainText('at rating weather')
    await expect(page.getByRole('status').first()).toContainText(/limit at rating weather stays [\d,]+ A per phase.*In the weather taken only [\d,]+ A per phase, not a rating\./)
    const countIn = (text: string) => Number(/(\d+) splices? would pass/.exec(text)?.[1])
    await expect.poll(async () => countIn(await page.getByRole('status').first().innerText())).toBeGreaterThan(countIn(before))
    const hottest = (await passing(page).getByRole('row').locator('td[data-label="At upper ratio"]').allInnerTexts()).map((text) => Number.parseFloat(text))
    expect(hottest.length).toBeGreaterThan(3)
    expect(hottest).toEqual([...hottest].sort((a, b) => b - a))
    expect(asked).toEqual([])
    await page.getByRole('button', { name: 'Back to rating weather' }).click()
    await expect(page.getByText('Not a rating')).toHaveCount(0)
  })

  test('the plot is walked by arrow keys, and Enter opens the sheet of the splice', async ({ page }) => {
    await page.goto(`/loading?circuit=${await idOf(page, WORST)}&load=rating`)
    await plot(page).focus()
    await page.keyboard.press('End')
    await page.keyboard.press('Home')
    await page.keyboard.press('ArrowRight')
    await expect(plot(page)).toHaveAttribute('aria-valuenow', '2')
    const text = await plot(page).getAttribute('aria-valuetext')
    const name = text?.split(',')[0] ?? ''
    expect(text).toMatch(/, (sound|watch|degraded|urgent|critical|unknown), (taken under )?\d+ °[CF]/)
    await page.keyboard.press('Enter')
    await expect(page).toHaveURL(/\/splices\/\d+/)
    await expect(page.getByRole('heading', { level: 1 })).toContainText(name)
  })

  test('every splice stands in the table too, the unread ones counted and never sound', async ({ page }) => {
    const id = await idOf(page, WORST)
    const { joints } = circuitJoints.parse(await (await page.request.get(`/api/v1/circuits/${id}/joints`)).json())
    const unread = joints.filter(({ basis }) => basis === 'unread').length
    await page.goto(`/loading?circuit=${id}&load=rating`)
    await expect(page.getByRole('region', { name: 'Not known' })).toContainText(`${unread} splices without a ratio that can be relied on`)
    await page.getByText('All splices as a table').click()
    const table = page.getByRole('table', { name: 'All splices, in line order' })
    await expect(table).toBeVisible()
    while (await table.locator('xpath=../..').getByRole('button', { name: /^Show \d+ more of \d+$/ }).count() > 0) {
      await table.locator('xpath=../..').getByRole('button', { name: /^Show \d+ more of \d+$/ }).first().click()
    }
    await expect(table.getByRole('row')).toHaveCount(joints.length + 1)
  })

  test('a figure of one’s own carries its name and source; without a load it says how to import one', async ({ page }) => {
    await page.goto(`/loading?circuit=${await idOf(page, WITHOUT_LOAD)}&load=last`)
    await expect(page.getByRole('heading', { name: 'No load is known of these sections' })).toBeVisible()
    await expect(page.getByRole('link', { name: 'Download the template' })).toHaveAttribute('href', '/api/v1/templates/loads.csv')
    await page.getByRole('combobox', { name: 'Take' }).selectOption('Expected peak, as imported')
    await expect(page.getByRole('heading', { name: 'No expected peak is known of these sections' })).toBeVisible()
    await page.getByRole('combobox', { name: 'Take' }).selectOption('A figure of my own')
    await expect(page.getByText('One figure for every section shown')).toBeVisible()
    await page.getByRole('textbox', { name: 'Current per phase' }).fill('1100')
    await page.getByRole('textbox', { name: 'Source' }).fill('Summer study')
    await expect(page.getByText('1,100 A: expected peak, typed in, source: Summer study')).toBeVisible()
    await page.getByRole('textbox', { name: 'Current per phase' }).fill('30000')
    await expect(page.getByText(/cannot be right/).first()).toBeVisible()
  })

  test('takes what the planner expects: the peak and the flow after an outage, with the moment they stand for', async ({ page }) => {
    const id = await idOf(page, WORST)
    const { sections: [section] } = circuitJoints.parse(await (await page.request.get(`/api/v1/circuits/${id}/joints`)).json())
    const { expected_peak: peak, post_contingency: after } = section ?? {}
    expect(after?.current_a).toBeGreaterThan(peak?.current_a ?? NaN)
    await page.goto(`/loading?circuit=${id}&load=peak`)
    await expect(page.getByText(`${peak?.current_a} A: expected peak, for 14 Jan 2027 18:00 MST`)).toBeVisible()
    await page.getByRole('combobox', { name: 'Take' }).selectOption('Flow after an outage, as imported')
    await expect(page.getByRole('status').first()).toContainText(`at the flow after an outage elsewhere, ${after?.current_a} A`)
  })

  test('what is on the map goes along from Operations, and a circuit from its sheet', { tag: '@map' }, async ({ page }) => {
    await page.goto('/operations')
    await page.getByRole('link', { name: 'Loading of this view' }).click()
    await expect(page).toHaveURL(/\/loading\?bbox=/)
    await expect(page.getByText(/^On the map: \d+ circuits$/)).toBeVisible()
    await page.goto(`/circuits/${await idOf(page, WORST)}`)
    await page.getByRole('link', { name: 'How hot would its splices be at a load?' }).click()
    await expect(plot(page)).toBeVisible()
  })

  for (const scheme of ['light', 'dark'] as const) {
    test(`has no serious barrier, on a desk and on a phone, ${scheme}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: scheme })
      await page.goto(`/loading?circuit=${await idOf(page, WORST)}&load=rating&air=35`)
      await expect(passing(page)).toBeVisible()
      expect(await seriousBarriers(page)).toEqual([])
      await page.setViewportSize({ width: 390, height: 844 })
      expect(await seriousBarriers(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
      await page.getByRole('button', { name: /See the answer$/ }).click()
      await expect(page.getByRole('status').first()).toBeInViewport()
      await expect(page.getByRole('button', { name: /See the answer$/ })).toHaveCount(0)
      await passing(page).getByRole('row').nth(1).scrollIntoViewIfNeeded()
      const allows = await passing(page).locator('td[data-label="Allows"]').first().boundingBox()
      expect(allows && allows.x >= 0 && allows.x + allows.width <= 390).toBe(true)
    })
  }

  test('prints on one sheet', async ({ page }) => {
    await page.goto(`/loading?circuit=${await idOf(page, WORST)}&load=rating`)
    await expect(passing(page)).toBeVisible()
    const paper = (await page.pdf({ format: 'Letter', printBackground: true })).toString('latin1')
    expect(paper.match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(1)
  })
})

test.describe('Before a flight', () => {
  const table = (page: Page) => page.getByRole('table', { name: /^Sections before a flight/ })

  test('says where a bad splice would show, and what would do where not', async ({ page }) => {
    await page.goto('/loading')
    await page.getByRole('navigation', { name: 'Loading', exact: true }).getByRole('link', { name: 'Before a flight' }).click()
    await expect(table(page).getByRole('row')).toHaveCount(14)
    const standing = await table(page).locator('tbody tr').evaluateAll((rows) => rows.map((row) => row.getAttribute('data-standing')))
    const order = ['fly', 'nearer', 'marginal', 'do-not-fly', 'load-unknown']
    expect(standing).toEqual([...standing].sort((a, b) => order.indexOf(a ?? '') - order.indexOf(b ?? '')))
    await expect(table(page).getByText('Do not fly for this').first()).toBeVisible()
    await expect(table(page).getByText(/^[\d,]+ A, \d+% of rating, would do\./).first()).toBeVisible()
    await expect(table(page).locator('tr[data-standing="load-unknown"]')).toContainText(WITHOUT_LOAD)
  })

  test('takes a circuit by its name or id, and says which name no circuit has', async ({ page }) => {
    await page.goto(`/loading/flight?circuit=${WORST}`)
    await expect(table(page).locator('tbody tr')).toHaveCount(1)
    await expect(table(page)).toContainText(WORST)
    await page.goto(`/loading/flight?circuit=${await idOf(page, WORST)},no-such-line`)
    await expect(table(page).locator('tbody tr')).toHaveCount(1)
    await expect(page.getByText('No circuit is called no-such-line: choose it by its name as imported.')).toBeVisible()
    await page.goto('/loading/flight?circuit=no-such-line')
    await expect(page.getByRole('heading', { name: 'No circuit is called no-such-line' })).toBeVisible()
    await page.getByRole('button', { name: 'Show all circuits' }).click()
    await expect(table(page).getByRole('row')).toHaveCount(14)
  })

  test('less load, and none is left; more, and every known one shows', async ({ page }) => {
    await page.goto('/loading/flight?wind=1&share=10')
    await expect(page.getByText(/^A splice bad on both sides would show nowhere today, and none that is critical on one side only\. Do not fly for this on 12\. .* Loads are \d+/)).toBeVisible()
    await slider(page, 'Of that load, %').focus()
    for (let i = 0; i < 12; i++) await page.keyboard.press('PageUp')
    await expect(page.getByText(/A splice bad on both sides would show on 12 of 13 sections/).first()).toBeVisible()
  })

  test('follows a slider with its next frame', async ({ page }) => {
    await page.goto('/loading/flight?wind=1&share=100')
    await expect(table(page)).toBeVisible()
    const follows = await slider(page, 'Of that load, %').evaluate(async (element) => {
      const input = element as HTMLInputElement
      const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set
      const frame = () => new Promise<void>((done) => { requestAnimationFrame(() => done()) })
      const loads = () => document.querySelector('[data-standing] td')?.textContent ?? ''
      const seen = [loads()]
      for (const share of [101, 102, 103, 104, 105]) {
        set?.call(input, String(share))
        input.dispatchEvent(new Event('input', { bubbles: true }))
        await frame()
        await frame()
        seen.push(loads())
      }
      return new Set(seen).size
    })
    expect(follows).toBe(6)
  })

  test('with an hour the sun is that of the place and hour, and none at night', async ({ page }) => {
    await page.goto('/loading/flight?sky=direct')
    await expect(table(page)).toBeVisible()
    await page.getByLabel('Hour of the flight').fill('2026-12-02T12:00')
    await expect(page.getByText(/direct sun, at 2 Dec 2026 12:00 MST, \d+ to \d+ W\/m² on the lines/)).toBeVisible()
    await page.getByLabel('Hour of the flight').fill('2026-12-02T22:00')
    await expect(page.getByText('direct sun, at 2 Dec 2026 22:00 MST, which is off then')).toBeVisible()
    await expect(table(page).getByText(/direct sun, with the conductor/)).toHaveCount(0)
    await expect(page.getByRole('textbox', { name: 'Noise (NETD)' })).toHaveValue('0.09')
  })

  test('too much wind is no matter of load, and a coarse lens wants nearer', async ({ page }) => {
    await page.goto('/loading/flight?wind=5')
    await expect(table(page).getByText(/^Wind of .* or less; then look here again\.$/).first()).toBeVisible()
    await page.goto('/loading/flight?wind=1&share=150&ifov=1.36&dist=60')
    await expect(table(page).getByText(/would show only within \d+ (ft|m)/i).first()).toBeVisible()
    // From 60 m such a lens shows none of them, and the headline counts none.
    await expect(page.getByText(/^A splice bad on both sides would show nowhere today from .*, and none that is critical on one side only\. On \d+ only from nearer\./)).toBeVisible()
    await expect(table(page).getByText(/^One side alone at /).first()).toBeVisible()
    await expect(table(page).getByText(/^Or a lens of 0\.\d+ mrad or finer from/).first()).toBeVisible()
  })

  test('goes into a spreadsheet', async ({ page }) => {
    await page.goto('/loading/flight')
    await expect(table(page)).toBeVisible()
    const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'CSV' }).click()])
    expect(file.suggestedFilename()).toBe('before-a-flight.csv')
    let text = ''
    for await (const chunk of await file.createReadStream()) text += String(chunk)
    const [header, ...rows] = text.trim().split('\r\n')
    expect(header).toMatch(/^circuit,section,line_name,conductor,standing,current_a,rating_a/)
    expect(rows).toHaveLength(13)
  })

  for (const scheme of ['light', 'dark'] as const) {
    test(`has no serious barrier, on a desk and on a phone, ${scheme}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: scheme })
      await page.goto('/loading/flight?sky=direct')
      await expect(table(page)).toBeVisible()
      expect(await seriousBarriers(page)).toEqual([])
      await page.setViewportSize({ width: 390, height: 844 })
      await expect(table(page)).toBeVisible()
      expect(await seriousBarriers(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
    })
  }
})
