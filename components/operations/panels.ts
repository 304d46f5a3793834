/** Which panels stand open; remembered in a cookie, so that the first paint has them right. */
export interface Panels { list: boolean; sheet: boolean }

export const formatPanels = (p: Panels): string => [p.list ? 'list' : '', p.sheet ? 'sheet' : ''].filter(Boolean).join('.') || 'none'

/** Nothing remembered: both open. */
export function parsePanels(text: string | undefined): Panels {
  if (!text) return { list: true, sheet: true }
  const open = text.split('.')
  return { list: open.includes('list'), sheet: open.includes('sheet') }
}
