/** Text as a CSS string: whatever a utility writes as its mark stays text within a style. */
export const cssString = (text: string): string => `"${text.replace(/[^\p{L}\p{N} .,:;()/-]/gu, (sign) => `\\${sign.codePointAt(0)?.toString(16)} `)}"`

/**
 * What stands in the margins of paper: the page of how many on each, and from the second on how the paper is to be handled and whom it is for,
 * which opens the first. Browsers without margin boxes print the pages without them.
 */
export function pageMarks(mark: string, recipient: string): string {
  const handling = [mark, recipient === '' ? '' : `Recipient: ${recipient}`].filter(Boolean).join('. ')
  const font = 'font: 8pt sans-serif; color: #000;'
  return [
    '@page { margin: 12mm;',
    `@top-left { content: ${cssString(handling)}; ${font} white-space: nowrap; }`,
    `@bottom-right { content: "Page " counter(page) " of " counter(pages); ${font} } }`,
    '@page :first { @top-left { content: none; } }',
  ].join('\n')
}

/** At the foot of every page: a page that is parted from the others still says how long it holds. */
export const footMark = (text: string): string => `@page { @bottom-left { content: ${cssString(text)}; font: 8pt sans-serif; color: #000; white-space: nowrap; } }`
