import { cache } from 'react'
import { allScope } from '@/lib/store/all-scope'
import { DEFAULT_SETTINGS, getSettings } from '@/lib/store/settings'
import type { SettingsJson } from '@/lib/contract/settings'

/** The settings for drawing a page. Without a store they are the defaults, so that the page can still say what is wrong. */
export const shownSettings = cache(async (): Promise<SettingsJson> => {
  try {
    return await getSettings(allScope())
  } catch {
    return DEFAULT_SETTINGS
  }
})
