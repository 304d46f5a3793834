/** A cell that a spreadsheet would run gets an apostrophe before it; a number keeps its sign, and blanks are nothing to run. */
export const guardCell = (text: string): string =>
  /^[=+\-@\t\r]/.test(text) && text.trim() !== '' && !/^[+-]?\d+([.,]\d+)?$/.test(text) ? `'${text}` : text

/** One cell of RFC 4180, quoted where it must be, and harmless to a spreadsheet. */
function csvCell(text: string): string {
  const guarded = guardCell(text)
  return /["\r\n,;\t]|^\s|\s$/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded
}

export const csvLine = (cells: readonly string[]): string => `${cells.map(csvCell).join(',')}\r\n`
