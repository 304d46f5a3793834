import { expect, test } from './fixtures'

test('Operations on a phone shows rows to come while its splices are on their way', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 })
  let answer = () => {}
  const held = new Promise<void>((resolve) => { answer = resolve })
  await page.route(/\/api\/v1\/splices\?/, async (route) => {
    await held
    await route.continue()
  })
  await page.goto('/operations?view=list')
  const list = page.getByRole('complementary', { name: 'Splices' })
  const rows = list.locator('[aria-busy="true"] > *')
  await expect(rows).not.toHaveCount(0)
  const box = await rows.first().boundingBox()
  expect(box?.height).toBe(48) // as high as the rows that come
  expect(box?.width).toBe(390)
  answer()
  await expect(list.locator('[aria-busy="true"]')).toHaveCount(0)
  await expect(page.locator('#splice-list')).toBeVisible()
})
