import type { Page } from '@playwright/test'
import { wcagContrast } from 'culori'
import { policyHistory, policyVersion, settings } from '@/lib/contract/settings'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'
import { overhang } from './imports'

const inForce = async (page: Page) => policyVersion.parse(await (await page.request.get('/api/v1/policy')).json())
const stored = async (page: Page) => settings.parse(await (await page.request.get('/api/v1/settings')).json())
const aside = (page: Page) => page.getByRole('complementary', { name: 'Change of policy' })
const edge = (page: Page, name: string) => page.getByLabel(name, { exact: true })

async function openPolicy(page: Page) {
  await page.goto('/settings?part=policy')
  await expect(edge(page, 'Urgent over')).toBeVisible()
}

test.describe('the condition policy', () => {
  test("says that its edges are the utility's own, and that no class falls by a change", async ({ page }) => {
    await openPolicy(page)
    await expect(page.getByText("your utility's policy, not a standard")).toBeVisible()
    await expect(page.getByText('no splice fall from urgent or critical')).toBeVisible()
  })

  test('shows what a change would reclassify before it is saved, and nothing is lowered from urgent or critical', async ({ page }) => {
    const before = await inForce(page)
    await openPolicy(page)
    await edge(page, 'Urgent over').fill('1.4')
    const change = aside(page)
    await expect(change.getByText('Urgent over')).toBeVisible()
    await expect(change.getByText(/splices? changes? (its|their) class/)).toBeVisible({ timeout: 30_000 })
    await expect(change.getByRole('row', { name: /degraded.*urgent/ })).toBeVisible()
    await expect(change.getByRole('row', { name: /^(urgent|critical) → .*(sound|watch|degraded)/ })).toHaveCount(0)
    await change.getByText(/of them|Which splices/).click()
    await expect(change.getByRole('link').first()).toHaveAttribute('href', /^\/splices\/\d+$/)
    await change.getByRole('button', { name: 'Discard' }).click()
    await expect(edge(page, 'Urgent over')).toHaveValue('1.85')
    expect((await inForce(page)).version).toBe(before.version)
  })

  test('shows whose advised current would rise though no class falls, and says that no procedure stands behind it', async ({ page }) => {
    await openPolicy(page)
    const hottest = page.getByLabel('Splice no hotter than')
    await hottest.first().evaluate((field) => field.closest('details')?.setAttribute('open', ''))
    await hottest.fill('210')
    const change = aside(page)
    await expect(change.getByText(/advised currents change$/)).toBeVisible({ timeout: 30_000 })
    const steps = change.getByRole('list', { name: 'Advised currents now and then' }).getByRole('listitem')
    const [, from, to] = /([\d,]+) A → ([\d,]+) A/.exec(await steps.first().innerText()) ?? []
    expect(Number(to?.replace(',', ''))).toBeGreaterThan(Number(from?.replace(',', '')))
    await change.getByLabel('Procedure number').fill('')
    await expect(change.getByRole('note').filter({ hasText: 'No procedure number' })).toBeVisible()
    await change.getByRole('button', { name: 'Discard' }).click()
  })

  test('says beside the field what is wrong, and does not save it', async ({ page }) => {
    await openPolicy(page)
    await edge(page, 'Urgent over').fill('3')
    await expect(page.getByText('The edges must rise from watch to critical.')).toBeVisible()
    await expect(aside(page).getByRole('button', { name: 'Save as new version' })).toBeDisabled()
    await edge(page, 'Urgent over').fill('high')
    await expect(page.getByText('Write a number.')).toBeVisible()
    await edge(page, 'Chance that makes critical').fill('120')
    await expect(page.getByText('Must be 100% or less.')).toBeVisible()
  })

  test('is kept as versions with procedure and note; older values can be taken up again', async ({ page }) => {
    const first = await inForce(page)
    await openPolicy(page)
    await edge(page, 'High confidence from')
      .first()
      .evaluate((field) => field.closest('details')?.setAttribute('open', ''))
    await edge(page, 'High confidence from').fill('85')
    await aside(page).getByLabel('Procedure number').fill('TP-17 rev 2')
    await aside(page).getByRole('button', { name: 'Save as new version' }).click()
    await expect(aside(page).getByLabel('Set by')).toHaveAccessibleDescription(/write who stands behind them/)
    await expect(aside(page).getByLabel('Set by')).toBeFocused()
    expect((await inForce(page)).version).toBe(first.version)
    await aside(page).getByLabel('Set by').fill('R. Castellan')
    await aside(page).getByLabel('Reason').fill('Trial of a stricter word')
    await aside(page).getByRole('button', { name: 'Save as new version' }).click()
    await expect(page.getByText('Every splice has been assessed again under the policy in force.')).toBeVisible({ timeout: 60_000 })
    const second = await inForce(page)
    expect(second).toMatchObject({ version: first.version + 1, procedure_no: 'TP-17 rev 2', note: 'Trial of a stricter word', set_by: 'R. Castellan' })
    expect(second.values).toMatchObject({ confidence: { high: 0.85 } })
    const row = page.getByRole('region', { name: 'Versions of the policy' }).getByRole('row').filter({ hasText: 'TP-17 rev 2' }).first()
    await expect(row).toContainText('High confidence from: 80% → 85%')
    await expect(row).toContainText('R. Castellan')
    await expect(row).toContainText('in force')

    await page
      .getByRole('row')
      .filter({ has: page.getByRole('cell', { name: String(first.version), exact: true }) })
      .getByRole('button', { name: 'Take these values' })
      .click()
    await expect(aside(page).getByText('High confidence from')).toBeVisible()
    await aside(page)
      .getByLabel('Procedure number')
      .fill(first.procedure_no ?? '')
    await aside(page).getByLabel('Set by').fill('R. Castellan')
    await aside(page).getByLabel('Reason').fill('Back to what it was')
    await aside(page).getByRole('button', { name: 'Save as new version' }).click()
    await expect.poll(async () => (await inForce(page)).version).toBe(first.version + 2)
    expect((await inForce(page)).values).toEqual(first.values)
    const { items } = policyHistory.parse(await (await page.request.get('/api/v1/policy/history')).json())
    expect(items.map((v) => v.version).slice(0, 3)).toEqual([first.version + 2, first.version + 1, first.version])
  })
})

test.describe('the settings of the utility', () => {
  test('show how things will read, are saved, and can be taken back', async ({ page }) => {
    const before = await stored(page)
    await page.goto('/settings')
    await page.getByRole('button', { name: 'L1 L2 L3' }).click()
    await expect(page.getByRole('complementary', { name: 'How it will read' })).toContainText('phase L2')
    await page.getByLabel('Information-handling mark').fill('Internal use')
    await page.getByRole('button', { name: 'Save settings' }).click()
    await expect(page.getByText('Settings saved').first()).toBeVisible()
    expect(await stored(page)).toMatchObject({ phase_letters: { A: 'L1', B: 'L2', C: 'L3' }, information_mark: 'Internal use' })
    await page.getByRole('button', { name: 'Undo', exact: true }).click()
    await expect.poll(() => stored(page)).toEqual(before)
  })

  test('say beside the field what is wrong', async ({ page }) => {
    await page.goto('/settings')
    await page.getByLabel('Time zone').fill('Mountain')
    await expect(page.getByText('Mountain is no time zone.')).toBeVisible()
    await page.getByLabel('Phase B is').fill('A')
    await expect(page.getByText('A is used for two phases.').first()).toBeVisible()
    await page.getByRole('radio', { name: 'PMTiles file' }).click()
    await expect(page.getByText('Write the address, or choose the embedded basemap.')).toBeVisible()
    await expect(page.getByRole('button', { name: 'Save settings' })).toBeDisabled()
  })

  for (const part of ['utility', 'policy']) {
    test(`read on a phone and in the dark without a barrier: ${part}`, async ({ page }) => {
      await page.setViewportSize({ width: 390, height: 844 })
      await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' })
      await page.goto(`/settings?part=${part}`)
      await expect(page.locator('main [aria-busy="true"]')).toHaveCount(0)
      expect(await overhang(page)).toBe(0)
      expect(await seriousBarriers(page)).toEqual([])
      await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' })
      await page.setViewportSize({ width: 1440, height: 900 })
      expect(await seriousBarriers(page)).toEqual([])
    })
  }
})

test.describe('the tabs', () => {
  // WCAG 2.2: 2.4.7 asks for a visible focus, 1.4.11 for a contrast of 3 to 1 of what marks a state.
  for (const colorScheme of ['light', 'dark'] as const) {
    test(`ring the one that the keyboard is on, clear of its letters and cut off nowhere: ${colorScheme}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme })
      await page.goto('/settings')
      const tabs = page.getByRole('tab')
      await tabs.first().focus()
      for (const [key, name] of [['ArrowRight', 'Condition policy'], ['ArrowLeft', 'Utility']] as const) {
        await page.keyboard.press(key)
        const tab = page.getByRole('tab', { name })
        await expect(tab).toBeFocused()
        const seen = await tab.evaluate((element) => {
          const { outlineStyle, outlineWidth, outlineOffset, outlineColor } = getComputedStyle(element)
          const words = document.createRange()
          words.selectNodeContents(element)
          const edges = (box: DOMRect) => ({ left: box.left, right: box.right, top: box.top, bottom: box.bottom })
          return {
            outlineStyle, outlineColor, widthPx: Number.parseFloat(outlineWidth), offsetPx: Number.parseFloat(outlineOffset), paper: getComputedStyle(document.body).backgroundColor,
            tab: edges(element.getBoundingClientRect()), words: edges(words.getBoundingClientRect()), list: edges(element.parentElement!.getBoundingClientRect()),
          }
        })
        expect(seen.outlineStyle).toBe('solid')
        expect(seen.widthPx).toBeGreaterThanOrEqual(2)
        expect(wcagContrast(seen.outlineColor, seen.paper)).toBeGreaterThanOrEqual(3)
        const outerPx = seen.offsetPx + seen.widthPx
        expect(seen.tab.left - outerPx).toBeGreaterThanOrEqual(seen.list.left)
        expect(seen.tab.top - outerPx).toBeGreaterThanOrEqual(seen.list.top)
        expect(seen.tab.bottom + outerPx).toBeLessThanOrEqual(seen.list.bottom + 0.5)
        expect(seen.words.left - seen.tab.left).toBeGreaterThanOrEqual(-seen.offsetPx)
        expect(seen.tab.right - seen.words.right).toBeGreaterThanOrEqual(-seen.offsetPx)
      }
    })
  }
})
