import type { Page } from '@playwright/test'
import { circuitSummary, page as pageOf, spliceList } from '@/lib/contract/contract'
import { circuitStrip } from '@/lib/contract/strip'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'

const circuitPage = pageOf(circuitSummary)
const strip = (page: Page) => page.getByRole('region', { name: 'Strip' })
const drawing = (page: Page) => strip(page).getByRole('group', { name: /^Strip of / })
const mark = (page: Page, id: number) => strip(page).locator(`[data-splice="${id}"]`)
const param = (page: Page, name: string) => new URL(page.url()).searchParams.get(name)
const mapStill = (page: Page) => expect(page.locator('[data-network-map]')).toHaveAttribute('data-idle', '1', { timeout: 60_000 })

/** The worst splice of the demo with its circuit straightened. */
async function worst(page: Page) {
  const [splice] = spliceList.parse(await (await page.request.get('/api/v1/splices?sort=worst&limit=1')).json()).items
  if (!splice) throw new Error('The demo has no splice.')
  const line = circuitStrip.parse(await (await page.request.get(`/api/v1/circuits/${splice.circuit_id}/strip`)).json())
  return { splice, line }
}

async function openCircuit(page: Page) {
  const found = await worst(page)
  await page.goto(`/operations?sel=circuit-${found.splice.circuit_id}`)
  await expect(drawing(page)).toBeVisible()
  return found
}

test.describe('The strip', () => {
  test('asks which line to straighten, and straightens the one that is chosen', async ({ page }) => {
    const { line } = await worst(page)
    await page.goto('/operations')
    await expect(strip(page)).toContainText('Select a circuit or a splice to straighten its line')
    await expect(page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option').first()).toBeAttached()
    await strip(page).getByLabel('Circuit to straighten').selectOption(String(line.circuit_id))
    await expect(strip(page).getByRole('heading', { name: 'Strip' })).toContainText(line.circuit)
    await expect.poll(() => param(page, 'sel')).toBe(`circuit-${line.circuit_id}`)
    await expect(drawing(page)).toContainText('no planned repairs or outage windows on record')
  })

  test('has a mark for every urgent and critical splice of the line, whatever is in view beside them', async ({ page }) => {
    const { line } = await openCircuit(page)
    for (const { id, class: shown } of line.splices) if (shown === 'urgent' || shown === 'critical') await expect(mark(page, id)).toBeVisible()
  })

  test('takes the map along when it is zoomed, and is taken along when the map moves', { tag: '@map' }, async ({ page }) => {
    const { line } = await openCircuit(page)
    await mapStill(page)
    const before = param(page, 'at')
    const box = await drawing(page).boundingBox()
    if (!box) throw new Error('The strip is not on the screen.')
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
    await page.mouse.wheel(0, -900)
    await expect.poll(() => param(page, 'strip')).toMatch(new RegExp(`^${line.circuit_id},`))
    await expect.poll(() => param(page, 'at')).not.toBe(before)
    await mapStill(page)
    // The map has arrived where the strip sent it, and did not send the strip anywhere in turn.
    const [own, at] = [param(page, 'strip'), param(page, 'at')]
    await page.waitForTimeout(900)
    expect([param(page, 'strip'), param(page, 'at')]).toEqual([own, at])
    const shown = await strip(page).locator('h2 + span').textContent()
    await page.reload()
    await expect(strip(page).locator('h2 + span')).toHaveText(shown ?? '')
    await mapStill(page)
    await page.getByRole('button', { name: 'Zoom out' }).click()
    await expect.poll(() => param(page, 'strip')).toBeNull()
    await expect(strip(page).locator('h2 + span')).not.toHaveText(shown ?? '')
  })

  test('a splice pointed at is marked on the map and in the list, and the other way round; one that is pressed is selected in all', { tag: '@map' }, async ({ page }) => {
    const { splice, line } = await worst(page)
    await page.goto(`/operations?sel=splice-${splice.id}`)
    await expect(mark(page, splice.id)).toHaveAttribute('aria-pressed', 'true')
    await mapStill(page)
    await mark(page, splice.id).hover()
    await expect(page.locator(`#plan [data-hovered="${splice.id}"]`)).toBeVisible()
    await expect(page.locator(`#splice-list [data-hovered="${splice.id}"]`)).toBeAttached()
    await page.mouse.move(5, 5)
    await expect(page.locator('[data-hovered]')).toHaveCount(0)
    await page.locator('#splice-list [aria-selected="true"]').hover()
    await expect(mark(page, splice.id)).toHaveClass(/pointed/)
    const other = strip(page).locator(`[data-splice]:not([data-splice="${splice.id}"])`).first()
    const id = Number(await other.getAttribute('data-splice'))
    await other.click()
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${id}`)
    await expect(page.locator('#splice-list [aria-selected="true"]')).toContainText(line.splices.find((one) => one.id === id)?.splice ?? 'no such splice')
  })

  test('is all there by keyboard: pan, zoom, ends, step from splice to splice, select', async ({ page }) => {
    const { line } = await openCircuit(page)
    const shown = strip(page).locator('h2 + span')
    const whole = await shown.textContent()
    await drawing(page).focus()
    await page.keyboard.press('+')
    await page.keyboard.press('+')
    await expect(shown).not.toHaveText(whole ?? '')
    await page.keyboard.press('End')
    const end = await shown.textContent()
    await page.keyboard.press('ArrowLeft')
    await expect(shown).not.toHaveText(end ?? '')
    await page.keyboard.press('Home')
    await page.keyboard.press('0')
    await expect(shown).toHaveText(whole ?? '')
    await page.keyboard.press('Tab')
    const focused = () => page.evaluate(() => Number(document.activeElement?.getAttribute('data-splice')))
    const first = await focused()
    const order = [...line.splices].map(({ id }) => id)
    expect(order).toContain(first)
    await page.keyboard.press('ArrowRight')
    const next = order[order.indexOf(first) + 1]
    if (next !== undefined) await expect.poll(focused).toBe(next)
    await page.keyboard.press('Enter')
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${await focused()}`)
  })

  test('reads as a table, from which a splice is selected', async ({ page }) => {
    const { line } = await openCircuit(page)
    await strip(page).getByRole('button', { name: 'As a table' }).click()
    const table = page.getByRole('table', { name: `Splices of ${line.circuit} by line distance` })
    await expect(table.getByRole('row')).toHaveCount(line.splices.length + 1)
    const [one] = line.splices
    if (!one) throw new Error('The line has no splice.')
    expect(await seriousBarriers(page)).toEqual([])
    await table.getByRole('button', { name: one.splice, exact: true }).click()
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${one.id}`)
  })

  test('shows what the filter of the list leaves, says what it hides, in its table too, and is whole again at one press', async ({ page }) => {
    const { splice, line } = await worst(page)
    const all = [line, ...line.beside].map(({ circuit, splices }) => ({ circuit, splices }))
    const acute = all.flatMap(({ splices }) => splices).filter(({ class: shown }) => shown === 'urgent' || shown === 'critical')
    await page.goto(`/operations?class=sound,watch&sel=circuit-${splice.circuit_id}`)
    await expect(drawing(page)).toBeVisible()
    const [own] = all
    const count = (shown: string) => own?.splices.filter(({ class: of }) => of === shown).length ?? 0
    const sentence = strip(page).getByText(/^The filter hides /)
    await expect(sentence).toContainText(`${count('critical')} critical`)
    if (count('urgent') > 0) await expect(sentence).toContainText(`${count('urgent')} urgent and`)
    for (const { id } of acute) await expect(mark(page, id)).toHaveCount(0)
    expect(await seriousBarriers(page)).toEqual([])
    await strip(page).getByRole('button', { name: 'As a table' }).click()
    const table = page.getByRole('table', { name: `Splices of ${line.circuit} by line distance` })
    await expect(table.getByRole('row')).toHaveCount(count('sound') + count('watch') + 1)
    await expect(page.getByRole('dialog')).toContainText('The filter hides ')
    await page.keyboard.press('Escape')
    // What is selected stays, whatever the filter.
    await page.goto(`/operations?class=sound,watch&sel=splice-${splice.id}`)
    await expect(mark(page, splice.id)).toHaveAccessibleName(/critical.*, not in the filter/)
    await strip(page).getByRole('button', { name: 'Clear the filter' }).click()
    await expect.poll(() => param(page, 'class')).toBeNull()
    await expect(sentence).toHaveCount(0)
    for (const { id } of acute) await expect(mark(page, id)).toHaveCount(1)
  })

  test('has the circuit on the same structures as lanes beside it, one step away', async ({ page }) => {
    const circuits = circuitPage.parse(await (await page.request.get('/api/v1/circuits')).json()).items
    const lines = await Promise.all(circuits.map(async ({ id }) => circuitStrip.parse(await (await page.request.get(`/api/v1/circuits/${id}/strip`)).json())))
    const line = lines.find(({ beside }) => beside.some(({ splices }) => splices.length > 0))
    const other = line?.beside.find(({ splices }) => splices.length > 0)
    const [one] = other?.splices ?? []
    if (!line || !other || !one) throw new Error('The demo has no two circuits on the same structures.')
    await page.goto(`/operations?sel=circuit-${line.circuit_id}`)
    await expect(drawing(page)).toContainText(`${other.circuit} A`)
    const bad = other.splices.find(({ class: shown }) => shown === 'urgent' || shown === 'critical') ?? one
    await expect(mark(page, bad.id)).toHaveCount(1)
    await strip(page).getByRole('button', { name: 'As a table' }).click()
    await page.getByRole('table', { name: `Splices of ${other.circuit} where it hangs beside ${line.circuit}` }).getByRole('button', { name: one.splice, exact: true }).click()
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${one.id}`)
    await expect(strip(page).getByRole('heading', { name: 'Strip' })).toContainText(other.circuit)
  })

  test.describe('under two fingers', () => {
    test.use({ hasTouch: true })

    test('spreads and closes about the place between them, and moves with one', async ({ page }) => {
      const { line } = await openCircuit(page)
      const box = await drawing(page).boundingBox()
      if (!box) throw new Error('The strip is not on the screen.')
      const touch = await page.context().newCDPSession(page)
      const y = box.y + box.height / 2
      const at = (...shares: number[]) => shares.map((share, id) => ({ x: box.x + share * box.width, y, id }))
      const move = async (...steps: number[][]) => {
        const [first = [], ...then] = steps
        await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(...first) })
        for (const step of then) await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(...step) })
        await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
      }
      const stretch = () => (param(page, 'strip') ?? '').split(',').slice(1).map(Number)
      const widthM = () => (stretch()[1] ?? NaN) - (stretch()[0] ?? NaN)
      const [from = NaN, to = NaN] = [line.sections[0]?.start_m, line.sections[0]?.end_m]
      await move([0.5, 0.6], [0.45, 0.65], [0.4, 0.7], [0.35, 0.75], [0.3, 0.8])
      await expect.poll(widthM).toBeLessThan((to - from) / 2)
      const near = widthM()
      await move([0.6], [0.5], [0.4])
      await expect.poll(() => stretch()[0]).not.toBe(from)
      const moved = stretch()
      expect(widthM()).toBeCloseTo(near, -1)
      await move([0.3, 0.8], [0.4, 0.7], [0.5, 0.6])
      await expect.poll(widthM).toBeGreaterThan(near * 1.5)
      expect(stretch()).not.toEqual(moved)
    })
  })

  test('folds, and is found folded again', async ({ page }) => {
    await openCircuit(page)
    await strip(page).getByRole('button', { name: 'Fold the strip' }).click()
    await expect(drawing(page)).toBeHidden()
    await page.reload()
    await expect(strip(page).getByRole('button', { name: 'Show the strip' })).toBeVisible()
    await expect(drawing(page)).toBeHidden()
    await strip(page).getByRole('button', { name: 'Show the strip' }).click()
    await expect(drawing(page)).toBeVisible()
  })

  for (const colorScheme of ['light', 'dark'] as const) {
    test(`keeps nobody out in ${colorScheme}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme })
      await openCircuit(page)
      expect(await seriousBarriers(page)).toEqual([])
    })
  }

  test('is one of the places of a phone, with what stands in the stretch below it', async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 844 })
    const { splice } = await worst(page)
    await page.goto(`/operations?sel=circuit-${splice.circuit_id}&view=strip`)
    await expect(drawing(page)).toBeVisible()
    await expect(page.getByRole('complementary', { name: 'Circuit sheet' })).toBeHidden()
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
    await strip(page).getByRole('button', { name: splice.splice }).last().click()
    await expect.poll(() => param(page, 'sel')).toBe(`splice-${splice.id}`)
    expect(await seriousBarriers(page)).toEqual([])
    await strip(page).getByRole('button', { name: 'Show the sheet' }).click()
    await expect(page.getByRole('complementary', { name: 'Splice sheet' }).getByRole('heading', { name: splice.splice })).toBeVisible()
    await page.getByRole('navigation', { name: 'Main, phone' }).getByRole('link', { name: 'Strip' }).click()
    await expect(drawing(page)).toBeVisible()
  })
})
