import type { APIRequestContext, Page } from '@playwright/test'
import { urgentList } from '@/lib/contract/api'
import { spliceDetail, spliceList, type SpliceDetail } from '@/lib/contract/contract'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

const AS_PROGRAM = { Authorization: 'Bearer browser-test' }
const DAY_MS = 86_400_000
const SURVEY = 'Decision drill'

const detailOf = async (request: APIRequestContext, id: number): Promise<SpliceDetail> =>
  spliceDetail.parse(await (await request.get(`/api/v1/splices/${id}`)).json())

/** A reading of a splice of the demo, so many days ago. */
async function send(request: APIRequestContext, splice: SpliceDetail, daysAgo: number, sideAUohm: number): Promise<void> {
  const answer = await request.post(`/api/v1/readings?survey=${encodeURIComponent(SURVEY)}`, {
    headers: AS_PROGRAM,
    data: [{
      reading_id: `decision-${splice.id}-${daysAgo}`, taken_at: new Date(Date.now() - daysAgo * DAY_MS).toISOString(), kind: 'resistance',
      circuit: splice.circuit, section: splice.section, splice_id: splice.splice, side_a_uohm: sideAUohm, side_b_uohm: 11, conductor_uohm: 20,
    }],
  })
  expect(answer.ok()).toBe(true)
}

/** A sound splice of the demo that no test has decided on yet, with a critical finding ten days ago and one better reading after it. */
async function heldSplice(request: APIRequestContext): Promise<SpliceDetail> {
  const { items } = spliceList.parse(await (await request.get('/api/v1/splices?class=sound&sort=place&limit=50')).json())
  for (const { id } of items) {
    const splice = await detailOf(request, id)
    if (splice.found_by_survey || splice.readings.some((r) => r.survey === SURVEY)) continue
    await send(request, splice, 10, 60)
    await send(request, splice, 8, 12)
    const held = await detailOf(request, id)
    expect(held).toMatchObject({ class: 'critical', held: true, ratio: 3 })
    return held
  }
  throw new Error('The demo has too few sound splices.')
}

const dialog = (page: Page) => page.getByRole('dialog', { name: /as engineer$/ })
const decide = (page: Page) => page.getByRole('button', { name: 'Decide as engineer' })

test.describe('a held class', () => {
  // No alarm of these drills waits where other tests look.
  test.afterEach(async ({ page }) => {
    const { items } = urgentList.parse(await (await page.request.get('/api/v1/urgent')).json())
    for (const { reading_id: id } of items.filter((u) => u.survey === SURVEY)) {
      expect((await page.request.post(`/api/v1/readings/${id}/acknowledge`, { headers: AS_PROGRAM })).ok()).toBe(true)
    }
  })

  test.use({ expectedErrors: [/status of 409/] })

  test('leads with its finding and is lowered by a named engineer with a reason, by keyboard alone', async ({ page }) => {
    const splice = await heldSplice(page.request)
    await page.goto(`/splices/${splice.id}`)
    await expect(page.getByText(/^3\.00times its conductor, measured \d/)).toBeVisible()
    await expect(page.getByText(/^Held critical by the finding of .* \(Decision drill\), ratio 3\.00\.$/)).toBeVisible()
    await expect(page.getByText(/is better: ratio 0\.60, by itself sound\./)).toBeVisible()
    await expect(page.getByText(/Still needed: one more independent good reading of every side/)).toBeVisible()

    await decide(page).focus()
    await page.keyboard.press('Enter')
    await expect(dialog(page)).toContainText('By itself the evidence now says electrically sound.')
    expect(await dialog(page).innerText()).not.toMatch(/\bsafe\b/i)
    expect(await seriousBarriers(page)).toEqual([])
    await page.keyboard.press('Escape')
    await expect(dialog(page)).toBeHidden()
    await expect(decide(page)).toBeFocused()

    await page.keyboard.press('Enter')
    const name = dialog(page).getByLabel('Engineer')
    const reason = dialog(page).getByLabel('Reason')
    await name.focus()
    await page.keyboard.press('Enter')
    await expect(dialog(page).getByText('A decision needs a name. Enter yours.')).toBeVisible()
    await expect(name).toBeFocused()
    expect(await seriousBarriers(page)).toEqual([])
    await page.keyboard.type('R. Castellan')
    await page.keyboard.press('Enter')
    const cause = dialog(page).getByLabel('What explains the contradiction?')
    await expect(cause).toBeFocused()
    await expect(dialog(page).getByText('A ratio does not fall by itself. Choose what explains it.')).toBeVisible()
    await page.keyboard.type('Something')
    await page.keyboard.press('Tab')
    await expect(dialog(page).getByLabel('Which cause')).toBeFocused()
    await page.keyboard.type('Damper in the span')
    await page.keyboard.press('Tab')
    await expect(reason).toBeFocused()
    await page.keyboard.type('Electrodes sat on the damper, seen on site')
    await page.keyboard.press('Tab')
    await expect(dialog(page).getByRole('button', { name: 'Record the decision' })).toBeFocused()
    await page.keyboard.press('Enter')

    await expect(dialog(page)).toBeHidden()
    await expect(page.getByText('Decision recorded', { exact: true })).toBeVisible()
    await expect(page.getByText('Electrically sound', { exact: true })).toBeVisible()
    await expect(decide(page)).toHaveCount(0)
    const history = page.getByRole('table', { name: 'History, newest first' })
    await expect(history.getByRole('row', { name: /Engineer’s decision/ })).toContainText(
      'R. Castellan: critical no longer stands, now sound. Damper in the span. “Electrodes sat on the damper, seen on site”')
    await expect(history.getByRole('row', { name: /critical, held/ }).first()).toContainText('the evidence says sound, ratio 0.60')
    expect(await seriousBarriers(page)).toEqual([])
  })

  test('is not lowered by a program that does not say what explains the contradiction', async ({ page }) => {
    const splice = await heldSplice(page.request)
    const clear = (body: object) => page.request.post(`/api/v1/splices/${splice.id}/clear`, { headers: AS_PROGRAM, data: { engineer: 'R. Castellan', reason: 'Seen on site', ...body } })
    for (const body of [{}, { cause: 'other' }, { cause: 'weather' }]) expect((await clear(body)).status()).toBe(400)
    expect(await detailOf(page.request, splice.id)).toMatchObject({ class: 'critical', held: true })
    const cleared = spliceDetail.parse(await (await clear({ cause: 'wrong-splice' })).json())
    expect(cleared).toMatchObject({ class: 'sound', held: false })
    expect(cleared.history.find(({ kind }) => kind === 'decision')).toMatchObject({ cause: 'wrong-splice', cause_text: null })
  })

  test('is not lowered by a decision on what has changed since: she is asked to look again', async ({ page }) => {
    const splice = await heldSplice(page.request)
    await page.goto(`/operations?sel=splice-${splice.id}`)
    const sheet = page.getByRole('complementary', { name: 'Splice sheet' })
    await expect(sheet.getByRole('heading', { name: splice.splice })).toBeVisible()
    await decide(page).click()
    await dialog(page).getByLabel('Engineer').fill('R. Castellan')
    await dialog(page).getByLabel('What explains the contradiction?').selectOption('electrodes')
    await dialog(page).getByLabel('Reason').fill('Thought to be a bad reading')
    await send(page.request, splice, 1, 64)
    await dialog(page).getByRole('button', { name: 'Record the decision' }).click()
    await expect(dialog(page).getByRole('alert')).toContainText('assessed anew since you opened it; your decision was not recorded')
    await dialog(page).getByRole('button', { name: 'Look again' }).click()
    await expect(dialog(page)).toBeHidden()
    await expect(sheet).toContainText('3.20')
    await expect(sheet.getByRole('heading', { name: splice.splice })).toBeVisible()
    expect(await detailOf(page.request, splice.id)).toMatchObject({ class: 'critical', held: false, ratio: 3.2 })
  })
})
