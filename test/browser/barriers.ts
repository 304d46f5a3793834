import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'

/** What keeps people out, by axe: serious and critical violations with the first element each stands on. */
export async function seriousBarriers(page: Page): Promise<string[]> {
  // What still fades in has less contrast than it will have.
  await page.evaluate(() => Promise.all(document.getAnimations()
    .filter((one) => Number.isFinite(one.effect?.getComputedTiming().endTime)).map((one) => one.finished.catch(() => null))))
  // No page here has frames, so the run needs no second page to gather them; nodes that pass need not be described.
  const { violations } = await new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] }).analyze()
  return violations.filter((v) => v.impact === 'serious' || v.impact === 'critical').map((v) => `${v.id}: ${v.nodes[0]?.html}`)
}
