import type { Locator, Page } from '@playwright/test'
import { reviewItem, type ReviewItem } from '@/lib/contract/contract'
import { reviewPage } from '@/lib/contract/intake'
import { linesOf, surveyOf } from '@/test/fixtures/browser/test-lines'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'
import { importNow, overhang, readingOf, toldBy, undoNow } from './imports'

const START_LAT = 47.85
const far = { sideA: '9', sideB: '10', conductor: '12' }
/** One reading a day by nobody in particular, so that each is placed alone; in the middle of two circuits 12 m apart. */
const SURVEY = surveyOf(START_LAT, [
  { id: 'V-1', date: '2024-05-01', eastM: 0, spans: 0.4, phase: 'A', ...far },
  { id: 'V-2', date: '2024-05-02', eastM: 0, spans: 1.4, ...far },
  { id: 'V-3', date: '2024-05-03', eastM: 700, spans: 2.4, phase: 'C', ...far },
  { id: 'V-4', date: '2024-05-04', eastM: 0, spans: 3.4, phase: 'B', sideA: '53', sideB: '10', conductor: '12' },
]).replace('R cond (µΩ)', 'conductor_uohm')

test.describe('the review queue', () => {
  let linesId: number
  let surveyId: number
  const ids: Record<string, number> = {}

  test.beforeAll(async ({ request }) => {
    linesId = (await importNow(request, { name: 'rv-lines.geojson', text: linesOf('RV-', START_LAT), kind: 'lines' })).id
    surveyId = (await importNow(request, { name: 'rv-survey.csv', text: SURVEY, kind: 'readings' })).id
    for (const key of ['V-1', 'V-2', 'V-3', 'V-4']) ids[key] = (await readingOf(request, surveyId, key)).id
  })
  test.afterAll(async ({ request }) => {
    await undoNow(request, surveyId)
    await undoNow(request, linesId)
  })

  const idOf = (key: string): number => {
    const id = ids[key]
    if (id === undefined) throw new Error(`${key} was not imported.`)
    return id
  }
  const open = async (page: Page, key: string) => {
    await page.goto(`/intake/review?reading=${idOf(key)}`)
    await expect(page.getByRole('heading', { name: key, exact: true })).toBeVisible()
  }
  const placed = async (page: Page, key: string): Promise<ReviewItem> => {
    const { items } = reviewPage.parse(await (await page.request.get(`/api/v1/review?reading=${idOf(key)}`)).json())
    return reviewItem.parse(items[0])
  }
  const stateOf = async (page: Page, key: string) => (await placed(page, key)).reading.placement.state
  const candidates = (page: Page) => page.getByRole('group', { name: 'Where it may belong' }).getByRole('radio', { name: /RV-/ })

  test('has the urgent first, holds the reading in the address, and says why it is asked', async ({ page }) => {
    await page.goto('/intake/review')
    await expect(page.getByRole('list', { name: 'Readings' }).getByRole('button').first()).toContainText(/urgent|critical/)
    await expect.poll(() => new URL(page.url()).searchParams.get('reading')).not.toBeNull()
    await open(page, 'V-4')
    const call = page.getByRole('group', { name: 'Call to the control room' })
    await expect(call).toContainText('Critical by its own numbers.')
    await expect(page.getByRole('list', { name: 'Readings' }).getByRole('button', { name: /V-4/ })).toContainText('critical')
    await expect(page.getByText('4.42')).toBeVisible()
    await expect(candidates(page)).toHaveCount(2)
    await expect(page.getByRole('heading', { name: 'Why it is here' })).toBeVisible()
  })

  test('chooses nothing beforehand for an urgent one: Enter places it only where somebody has chosen', async ({ page }) => {
    await open(page, 'V-4')
    await expect(candidates(page).nth(0)).not.toBeChecked()
    await expect(candidates(page).nth(1)).not.toBeChecked()
    await expect(page.getByRole('button', { name: 'Place here' })).toBeDisabled()
    await page.keyboard.press('Enter')
    await page.keyboard.press('m')
    await page.keyboard.press('Enter')
    await expect(page.getByText('Move the mark to where it was read, or choose its circuit.')).toBeVisible()
    await page.keyboard.press('Escape')
    await expect(page.getByText('Urgent or critical: choose where it belongs.')).toBeVisible()
    expect(await stateOf(page, 'V-4')).toBe('review')
    await page.keyboard.press('2')
    await expect(page.getByRole('button', { name: 'Place here' })).toBeEnabled()
    expect(await stateOf(page, 'V-4')).toBe('review')
  })

  test('says how sure each circuit is with one figure in the queue, in its reason, in the alarm of operations and in the report', async ({ page }) => {
    const { candidates: likely } = await placed(page, 'V-4')
    const sure = likely.map((c) => `${Math.floor(c.probability * 100)}%`)
    await open(page, 'V-4')
    for (const [n, figure] of sure.entries()) await expect(candidates(page).nth(n).locator('..')).toContainText(`${figure}sure of the circuit`)
    await page.goto('/operations')
    const strip = page.getByRole('region', { name: 'Call the control room now' })
    await strip.getByRole('button', { name: /^Show/ }).click()
    const alarm = strip.getByRole('listitem').filter({ hasText: 'V-4' })
    for (const [n, figure] of sure.entries()) await expect(alarm).toContainText(new RegExp(`${likely[n]?.circuit}[^;]*, ${figure}`))
    await page.goto(`/intake/${surveyId}`)
    const row = page.getByRole('alert').getByRole('listitem').filter({ hasText: 'V-4' })
    for (const figure of sure) await expect(row).toContainText(`(${figure} likely)`)
  })

  test('takes it from the queue that the control room was told', async ({ page }) => {
    await open(page, 'V-4')
    const call = page.getByRole('group', { name: 'Call to the control room' })
    await toldBy(page, call)
    await expect(call).toContainText(/Control room told Desk 2, .* noted by/)
    await expect(call.getByRole('button')).toHaveCount(0)
    await expect(page.getByRole('list', { name: 'Readings' }).getByRole('button', { name: /V-4/ })).toContainText('critical, told')
    expect(await seriousBarriers(page)).toEqual([])
  })

  test('says the cause of waiting in a phrase, lists one cause at a time, and says how many urgent that hides', async ({ page }) => {
    await page.goto('/intake/review')
    const list = page.getByRole('list', { name: 'Readings' })
    await expect(list.getByRole('button', { name: /^V-1/ })).toContainText('Parallel circuit possible')
    await page.getByRole('combobox', { name: 'Why they wait' }).selectOption('nothing-in-reach')
    await expect(list.getByRole('button', { name: /^V-3/ })).toContainText('Nothing within reach')
    await expect(list.getByRole('button', { name: /^V-1/ })).toHaveCount(0)
    await expect.poll(() => new URL(page.url()).searchParams.get('cause')).toBe('nothing-in-reach')
    await page.getByRole('button', { name: /urgent or critical hidden/ }).click()
    await expect(list.getByRole('button', { name: /^V-4/ })).toHaveCount(1)
  })

  for (const [width, height] of [[1440, 900], [390, 844]] as const) {
    test(`says what was done without covering a control, and hands the focus on, ${width} wide`, async ({ page }) => {
      await page.setViewportSize({ width, height })
      await open(page, 'V-1')
      await page.getByRole('button', { name: 'Place here' }).click()
      const said = page.getByText(/^V-1 placed on RV-/)
      await expect(said).toBeVisible()
      await expect(page.getByRole('heading', { level: 2 }).first()).toBeFocused()
      for (const name of ['Set aside', 'Move mark', 'Place here', 'Undo', 'Next (j)', 'Zoom in']) {
        const button = page.getByRole('button', { name, exact: true }).first()
        if (!(await button.isVisible())) continue
        await button.scrollIntoViewIfNeeded()
        const covered = await button.evaluate((b) => {
          const { left, top, width: w, height: h } = b.getBoundingClientRect()
          const at = document.elementFromPoint(left + w / 2, top + h / 2)
          return at !== b && !b.contains(at)
        })
        expect([name, covered]).toEqual([name, false])
      }
      await page.keyboard.press('u')
      await expect.poll(() => stateOf(page, 'V-1')).toBe('review')
    })
  }

  test('places by keys and takes back by a key', async ({ page }) => {
    await open(page, 'V-1')
    const second = (await placed(page, 'V-1')).candidates[1]
    await page.keyboard.press('2')
    await expect(candidates(page).nth(1)).toBeChecked()
    await page.keyboard.press('Enter')
    await expect(page.getByText(`V-1 placed on ${second?.circuit}`).first()).toBeVisible()
    await expect.poll(() => new URL(page.url()).searchParams.get('reading')).not.toBe(String(idOf('V-1')))
    const settled = (await placed(page, 'V-1')).reading.placement
    expect(settled).toMatchObject({ state: 'placed', method: 'person', circuit: second?.circuit })

    await page.keyboard.press('u')
    await expect(page.getByRole('heading', { name: 'V-1', exact: true })).toBeVisible()
    await expect.poll(() => stateOf(page, 'V-1')).toBe('review')
  })

  test('goes on and back by keys, and shows them on demand', async ({ page }) => {
    await open(page, 'V-1')
    const at = () => new URL(page.url()).searchParams.get('reading')
    await page.keyboard.press('j')
    await expect.poll(at).not.toBe(String(idOf('V-1')))
    await page.keyboard.press('k')
    await expect.poll(at).toBe(String(idOf('V-1')))
    await page.keyboard.press('?')
    await expect(page.getByRole('complementary', { name: 'Keys' })).toContainText('Choose a candidate')
    await page.keyboard.press('?')
    await expect(page.getByRole('complementary', { name: 'Keys' })).toHaveCount(0)
    await page.keyboard.press('?')
    await expect(page.getByRole('complementary', { name: 'Keys' })).toBeVisible()
    await page.keyboard.press('Escape')
    await expect(page.getByRole('complementary', { name: 'Keys' })).toHaveCount(0)
  })

  test('moves the mark by arrow keys and asks for a phase where none is given', async ({ page }) => {
    await open(page, 'V-2')
    await page.keyboard.press('c')
    await expect(page.getByRole('radio', { name: 'Phase C' })).toBeChecked()
    await page.keyboard.press('1')
    await page.keyboard.press('m')
    for (let n = 0; n < 3; n++) await page.keyboard.press('Shift+ArrowUp')
    await expect(page.getByRole('heading', { name: 'Mark moved by hand' })).toBeVisible()
    const before = (await placed(page, 'V-2')).candidates[0]
    await page.keyboard.press('Enter')
    await expect(page.getByText(/^V-2 placed on RV-/).first()).toBeVisible()
    const { reading } = await placed(page, 'V-2')
    expect(reading.placement).toMatchObject({ state: 'placed', method: 'person' })
    // 90 ft north of the candidate; the raw position stays what the file said.
    expect(((reading.placement.lat ?? 0) - (before?.lat ?? 0)) * 111_200).toBeGreaterThan(25)
    expect(((reading.placement.lat ?? 0) - (before?.lat ?? 0)) * 111_200).toBeLessThan(35)
    await page.keyboard.press('Control+z')
    await expect.poll(() => stateOf(page, 'V-2')).toBe('review')
  })

  test('drags the mark by hand', { tag: '@map' }, async ({ page }) => {
    await open(page, 'V-1')
    await expect(page.locator('[data-network-map]')).toHaveAttribute('data-idle', '1', { timeout: 60_000 })
    const mark = page.getByLabel('Mark: drag it to where the splice is')
    const box = await mark.boundingBox()
    if (!box) throw new Error('There is no mark on the map.')
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
    await page.mouse.down()
    await page.mouse.move(box.x + box.width / 2 + 20, box.y + box.height / 2 - 60, { steps: 6 })
    await page.mouse.up()
    await expect(page.getByRole('button', { name: 'Place at the mark' })).toBeEnabled()
    await page.keyboard.press('Escape')
    await expect(page.getByRole('button', { name: 'Place here' })).toBeVisible()
    expect(await stateOf(page, 'V-1')).toBe('review')
  })

  test('sets aside with a reason; what was set aside is listed and can be taken back', async ({ page }) => {
    await open(page, 'V-3')
    await expect(page.getByText('nothing lies in reach of its position. Move the mark')).toBeVisible()
    await expect(page.getByRole('button', { name: 'Place here' })).toBeDisabled()
    await page.keyboard.press('x')
    await page.keyboard.type("read on the neighbour's line")
    await page.keyboard.press('Enter')
    await expect(page.getByText('V-3 set aside').first()).toBeVisible()
    expect(await stateOf(page, 'V-3')).toBe('rejected')

    await page.getByRole('radio', { name: 'Set aside' }).click()
    await page.getByRole('list', { name: 'Readings' }).getByRole('button', { name: /V-3/ }).click()
    await expect(page.getByText(/neighbour's line/).first()).toBeVisible()
    await expect(page.getByRole('button', { name: 'Take back into review' })).toBeVisible()
    await page.keyboard.press('t')
    await expect.poll(() => stateOf(page, 'V-3')).toBe('review')
  })

  test('sets what is critical aside only with a reason, and keys typed on after it do nothing to the next reading', async ({ page }) => {
    await open(page, 'V-4')
    await page.keyboard.press('x')
    await expect(page.getByRole('button', { name: 'Set reading aside' })).toBeDisabled()
    await page.keyboard.press('Enter')
    expect(await stateOf(page, 'V-4')).toBe('review')
    await page.keyboard.type('lead was off')
    await page.keyboard.press('Enter')
    await page.keyboard.type('xn2')
    await expect(page.getByText('V-4 set aside').first()).toBeVisible()
    await expect(page.getByRole('button', { name: 'Set reading aside' })).toBeHidden()
    await page.keyboard.press('Control+z')
    await expect.poll(() => stateOf(page, 'V-4')).toBe('review')
  })

  test('takes the mark of a reading that lies far off to a place that is named', async ({ page }) => {
    await open(page, 'V-3')
    await expect(page.getByRole('button', { name: 'Place here' })).toBeDisabled()
    const field = page.getByLabel('Take the mark to')
    await field.fill('no such place anywhere')
    await field.press('Enter')
    await expect(page.getByText('Nothing is called that.')).toBeVisible()
    const { items } = (await (await page.request.get('/api/v1/splices?limit=1')).json()) as { items: { lon: number; lat: number }[] }
    await field.fill(`${items[0]?.lat}, ${items[0]?.lon}`)
    await field.press('Enter')
    await expect(page.getByRole('heading', { name: 'Mark moved by hand' })).toBeVisible()
    await expect(page.getByRole('button', { name: 'Place at the mark' })).toBeEnabled()
    await page.getByRole('button', { name: 'Put mark back' }).click()
    await expect(page.getByRole('button', { name: 'Place here' })).toBeDisabled()
  })

  test('takes the mark to a distance along a span, and says where one leads out of it', async ({ page }) => {
    await open(page, 'V-1')
    const { candidates: [first] } = await placed(page, 'V-1')
    const span = `${first?.structure_back}-${first?.structure_ahead}`
    const field = page.getByLabel('Take the mark to')
    await field.fill(`${span} + 90000 ft`)
    await field.press('Enter')
    await expect(page.getByText(/ is [\d,]+ (ft|m) long: '\+ 90000 ft' leads out of it\./)).toBeVisible()
    await expect(page.getByRole('heading', { name: 'Mark moved by hand' })).toBeHidden()
    await field.fill(`${span} + 100`)
    await field.press('Enter')
    await expect(page.getByText(/Is 100 met(re|er)s or feet\?/)).toBeVisible()
    await field.fill(`${span}, 100 ft ahead of ${first?.structure_back}`)
    await field.press('Enter')
    await expect(page.getByRole('heading', { name: 'Mark moved by hand' })).toBeVisible()
    await expect(page.getByText(new RegExp(`The mark stands at STR ${span}, 100 ft ahead of ${first?.structure_back}, .*RV-`))).toBeVisible()
    await expect(page.getByText(/stand there side by side: choose the circuit/)).toBeVisible()
    await page.getByRole('button', { name: 'Put mark back' }).click()
  })

  test('settles many at once with how many stay and why, and takes them back as one', async ({ page }) => {
    await open(page, 'V-1')
    const list = page.getByRole('list', { name: 'Readings' })
    for (const key of ['V-3', 'V-4']) await list.getByRole('checkbox', { name: `Mark ${key}` }).check()
    await page.getByRole('button', { name: 'Many at once, 2 marked' }).click()
    const dialog = page.getByRole('dialog', { name: 'Settle many readings at once' })
    const would = dialog.getByRole('region', { name: 'What it would do' })
    await expect(would).toContainText('None of these readings has one best candidate.')
    await expect(would).toContainText(/2 stay in review: .*1 urgent or critical by their own numbers/)
    await dialog.getByRole('radio', { name: 'Set aside' }).click()
    await expect(would).toContainText('1 reading would be set aside.')
    await expect(dialog.getByRole('button', { name: 'Set 1 aside' })).toBeDisabled()
    await dialog.getByLabel('Reason').fill('far from every line')
    expect(await seriousBarriers(page)).toEqual([])
    await dialog.getByRole('button', { name: 'Set 1 aside' }).click()
    await expect.poll(() => stateOf(page, 'V-3')).toBe('rejected')
    expect(await stateOf(page, 'V-4')).toBe('review')
    const done = dialog.getByRole('region', { name: 'Done before' }).getByRole('listitem').filter({ hasText: 'far from every line' }).first()
    await expect(done).toContainText('1 set aside: far from every line; 1 stayed')
    await done.getByRole('button', { name: 'Take back' }).click()
    await expect.poll(() => stateOf(page, 'V-3')).toBe('review')
    await expect(done).toContainText(/Taken back by .*: 1 wait again/)
  })

  test.describe('without an answer', () => {
    test.use({ expectedErrors: [/net::ERR_FAILED/] })

    test('says so where a decision is refused, and keeps the reading in the queue', async ({ page }) => {
      await page.route('**/api/v1/readings/*/placement', (route) => route.abort())
      await open(page, 'V-1')
      await page.keyboard.press('Enter')
      await expect(page.getByText('The server did not answer.').first()).toBeVisible()
      await expect(page.getByRole('heading', { name: 'V-1', exact: true })).toBeVisible()
      expect(await stateOf(page, 'V-1')).toBe('review')
    })
  })

  test.describe('on a phone', () => {
    test('shows what was measured, why, and the map before the decision, dark and light, without a barrier', { tag: '@map' }, async ({ page }) => {
      await page.setViewportSize({ width: 390, height: 844 })
      await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' })
      await open(page, 'V-4')
      expect(await overhang(page)).toBe(0)
      const topOf = (at: Locator) => at.evaluate((e) => e.getBoundingClientRect().top + window.scrollY)
      const order = [page.getByRole('heading', { name: 'Measured' }), page.getByRole('heading', { name: 'Why it is here' }), page.locator('[data-network-map]'), candidates(page).first().locator('..')]
      const tops = await Promise.all(order.map(topOf))
      expect(tops).toEqual(tops.toSorted((a, b) => a - b))
      const action = page.getByRole('button', { name: 'Place here' })
      await expect(action).not.toBeInViewport()
      await candidates(page).first().locator('..').scrollIntoViewIfNeeded()
      await expect(action).toBeInViewport()
      expect(await seriousBarriers(page)).toEqual([])
      await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' })
      await page.setViewportSize({ width: 1440, height: 900 })
      expect(await seriousBarriers(page)).toEqual([])
    })
  })
})
