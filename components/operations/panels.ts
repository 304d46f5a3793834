/** Which panels stand open; remembered in a cookie, so that the first paint has them right. */
export interface Panels { list: boolean; sheet: boolean; strip: boolean }

export const formatPanels = (p: Panels): string =>
  [p.list ? 'list' : '', p.sheet ? 'sheet' : '', p.strip ? '' : 'folded'].filter(Boolean).join('.') || 'none'

/** Nothing remembered: all open. The strip is remembered folded rather than open, since older cookies do not know it. */
export function parsePanels(text: string | undefined): Panels {
  if (!text) return { list: true, sheet: true, strip: true }
  const open = text.split('.')
  return { list: open.includes('list'), sheet: open.includes('sheet'), strip: !open.includes('folded') }
}
