import type { Page } from '@playwright/test'
import { circuitSummary, page as pageOf, spliceList, type ListedSplice } from '@/lib/contract/contract'
import { corridorPage } from '@/lib/contract/corridors'
import { savedViewList } from '@/lib/contract/watch'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

const circuitPage = pageOf(circuitSummary)
const splices = async (page: Page, query: string) => spliceList.parse(await (await page.request.get(`/api/v1/splices?sort=risk&${query}`)).json())
const options = (page: Page) => page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option')
const dialog = (page: Page) => page.getByRole('dialog')
const param = (page: Page, name: string) => new URL(page.url()).searchParams.get(name)

async function open(page: Page, path = '/operations?view=list') {
  await page.goto(path)
  await expect(options(page).first()).toBeAttached()
}

/** The first page of the list on screen, row by row by its name. */
async function expectRows(page: Page, expected: readonly ListedSplice[]) {
  for (const [i, { splice }] of expected.entries()) await expect(options(page).nth(i + 1)).toContainText(splice)
}

test.describe('the watch list', () => {
  test('stands in the order of risk and says of each row what is next, who has it, how it was called in, and why it stands there', async ({ page }) => {
    const { items } = await splices(page, 'class=critical,urgent,degraded&limit=4')
    await open(page)
    await expectRows(page, items)
    const [first] = items
    const row = options(page).nth(1)
    if (!first?.watch) throw new Error('The demo has nothing degraded or worse.')
    if (first.watch.load_share !== null) await expect(row).toContainText(`${Math.round(first.watch.load_share * 100)} % of`)
    await expect(row).toContainText(first.watch.waits_for_call ? /Call (the )?control room/ : /Decide.* load or outage|Repair|Second reading/)
    await expect(row).toContainText(/\d advised|\) advised|no limit|limit proposed|limit agreed|limit in force|limit: ask engineer/)
    await expect(row).toHaveAccessibleName(/not taken|taken by/)
  })

  test('a named person takes a splice, which the row says, and gives it back', async ({ page }) => {
    const { items: [of] } = await splices(page, 'class=degraded&limit=1')
    await open(page, `/operations?class=degraded&sel=splice-${of?.id}`)
    const sheet = page.getByRole('complementary', { name: 'Splice sheet' })
    await sheet.getByRole('button', { name: 'Take it' }).click()
    await dialog(page).getByLabel('Who').fill('A. Planner')
    await dialog(page).getByRole('button', { name: 'Take it' }).click()
    await expect(options(page).filter({ hasText: of?.splice ?? '' }).first()).toContainText('A. Planner')
    await sheet.getByRole('button', { name: 'Taken by A. Planner' }).click()
    await dialog(page).getByRole('button', { name: 'Nobody has it any more' }).click()
    await expect(sheet.getByRole('button', { name: 'Take it' })).toBeVisible()
  })

  test('is narrowed by evidence, age, confidence and survey; counts follow, and what is hidden of urgent and critical is said', async ({ page }) => {
    await open(page)
    await page.getByRole('button', { name: 'Evidence: all' }).click()
    await page.getByRole('checkbox', { name: 'Infrared only' }).check()
    await page.keyboard.press('Escape')
    await expect.poll(() => param(page, 'evidence')).toBe('infrared')
    const infrared = await splices(page, 'evidence=infrared&limit=3')
    await expect(page.getByText(`${infrared.total?.toLocaleString('en-US')} in the filter, by risk`)).toBeVisible()
    await expect(page.getByText(new RegExp(`^Hidden by the filter: ${infrared.hidden.critical} critical`))).toBeVisible()
    const legend = page.getByRole('group', { name: 'Condition classes on the map' })
    await expect(legend.getByRole('button', { name: /^sound/ })).toContainText(infrared.counts_of_any_class.sound.toLocaleString('en-US'))
    await page.getByRole('button', { name: 'Age: all', exact: true }).click()
    await page.getByRole('checkbox', { name: 'Under a year' }).check()
    await page.keyboard.press('Escape')
    await page.getByRole('button', { name: 'Confidence: all' }).click()
    await page.getByRole('checkbox', { name: 'Low' }).check()
    await page.keyboard.press('Escape')
    const narrow = await splices(page, 'evidence=infrared&age=under-1&confidence=low&limit=1')
    await expect(page.getByText(`${narrow.total?.toLocaleString('en-US')} in the filter, by risk`).or(page.getByText('No splice in this filter'))).toBeVisible()
    await page.getByRole('button', { name: 'Show all', exact: true }).first().click()
    await expect.poll(() => param(page, 'evidence')).toBeNull()
    await page.getByRole('button', { name: 'Survey: all' }).click()
    await page.getByRole('group', { name: 'Survey' }).getByRole('checkbox').first().check()
    await expect.poll(() => param(page, 'survey')).toMatch(/^\d+$/)
    const ofSurvey = await splices(page, `survey=${param(page, 'survey')}&limit=1`)
    await expect(page.getByText(`${ofSurvey.total?.toLocaleString('en-US')} in the filter, by risk`)).toBeVisible()
  })

  test('tiles hold what the list holds', async ({ page }) => {
    const bytes = async (query: string) => (await (await page.request.get(`/tiles/splices/0/0/0?${query}`)).body()).length
    expect((await page.request.get('/tiles/splices/0/0/0?age=never&evidence=resistance')).status()).toBe((await splices(page, 'age=never&evidence=resistance')).total === 0 ? 204 : 200)
    expect(await bytes('evidence=conflict')).not.toBe(await bytes(''))
  })

  test('by circuit, each circuit has all of its splices, and arrows walk them with the sheet following', async ({ page }) => {
    await open(page)
    await page.getByRole('radio', { name: 'By circuit' }).click()
    await expect.poll(() => param(page, 'by')).toBe('circuit')
    await expect(options(page).first()).toHaveAccessibleName(/^Circuit /)
    await page.getByRole('listbox').focus()
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('ArrowDown')
    await expect.poll(() => param(page, 'sel')).toMatch(/^splice-/)
    await expect(page.locator('#splice-list [aria-selected="true"]')).toBeVisible()
  })

  test('by corridor, circuits on the same structures are one group with all of their splices by risk, and the circuits that hang alone follow', async ({ page }) => {
    const [corridor] = corridorPage.parse(await (await page.request.get('/api/v1/corridors')).json()).items
    if (!corridor) throw new Error('The demo has no two circuits on the same structures.')
    const ids = corridor.circuits.map(({ circuit_id: id }) => id)
    const both = await splices(page, `circuit=${ids.join(',')}&limit=500`)
    await open(page)
    await page.getByRole('radio', { name: 'By corridor' }).click()
    await expect.poll(() => param(page, 'by')).toBe('corridor')
    await page.reload()
    const first = options(page).first()
    await expect(first).toHaveAccessibleName(new RegExp(`^Corridor ${corridor.name}, on the same structures all along, .*: .*${both.counts.urgent} urgent`))
    await expectRows(page, both.items.slice(0, 3))
    for (const [i, { circuit }] of both.items.slice(0, 3).entries()) await expect(options(page).nth(i + 1)).toContainText(`on ${circuit}`)
    await page.getByRole('listbox').focus()
    await page.keyboard.press('ArrowDown')
    await expect.poll(() => param(page, 'sel')).toBe(`circuit-${both.items[0]?.circuit_id}`)
    await expect(first).toHaveAttribute('aria-selected', 'true')
    await page.keyboard.press('ArrowDown')
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${both.items[0]?.id}`)
    // What the filter hides is said as in every other order; the circuits alone come after the corridor.
    await page.goto('/operations?by=corridor&class=sound&view=list')
    await expect(page.getByText(/^Hidden by the filter: \d+ critical, \d+ urgent/)).toBeVisible()
    const sound = await splices(page, 'class=sound&limit=1')
    await expect(page.getByText(`${sound.total?.toLocaleString('en-US')} in the filter, by risk`)).toBeVisible()
    expect(await seriousBarriers(page)).toEqual([])
    const alone = circuitPage.parse(await (await page.request.get('/api/v1/circuits')).json()).items.find(({ id, counts }) => counts.critical > 0 && !ids.includes(id))
    await page.goto(`/operations?by=corridor&circuit=${ids[0]},${alone?.id}&class=critical&view=list`)
    await expect(first).toHaveAccessibleName(new RegExp(`^Corridor ${corridor.name}`))
    await expect(options(page).filter({ hasText: 'critical on ' }).first()).toContainText(`on ${corridor.circuits[0]?.circuit}`)
    await expect(page.getByRole('option', { name: new RegExp(`^Circuit ${alone?.name}: \\d+ critical`) })).toBeAttached()
  })

  test('a filter is saved under a name for everybody, opened by its link, and deleted with a way back', async ({ page }) => {
    await open(page, '/operations?class=urgent,critical&evidence=resistance')
    const views = page.getByRole('button', { name: 'Views' })
    await views.click()
    await page.getByLabel('Name of the present filter').fill('Proved by resistance')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    const link = page.getByRole('list', { name: 'Saved views' }).getByRole('link', { name: 'Proved by resistance' })
    await expect(link).toHaveAttribute('href', '/operations?class=urgent,critical&evidence=resistance')
    expect(await seriousBarriers(page)).toEqual([])
    await page.goto('/operations')
    await views.click()
    await link.click()
    await expect.poll(() => [param(page, 'class'), param(page, 'evidence')]).toEqual(['urgent,critical', 'resistance'])
    const stored = async () => savedViewList.parse(await (await page.request.get('/api/v1/views')).json()).items.map(({ name }) => name)
    if (!await link.isVisible()) await views.click()
    await page.getByRole('button', { name: 'Delete Proved by resistance' }).click()
    await expect.poll(stored).not.toContain('Proved by resistance')
    await page.getByRole('button', { name: /^Undo/ }).click()
    await expect.poll(stored).toContain('Proved by resistance')
    await page.getByRole('button', { name: 'Delete Proved by resistance' }).click()
    await expect.poll(stored).not.toContain('Proved by resistance')
  })

  for (const [size, width] of [['a desk', 1440], ['a phone', 390]] as const) {
    for (const theme of ['light', 'dark'] as const) {
      test(`on ${size}, ${theme}, nothing keeps people out or stands over the edge`, async ({ page }) => {
        await page.setViewportSize({ width, height: 844 })
        await page.emulateMedia({ colorScheme: theme })
        await open(page)
        await expect(options(page).nth(2)).toBeVisible()
        expect(await seriousBarriers(page)).toEqual([])
        expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBeLessThanOrEqual(0)
      })
    }
  }
})
