/**
 * What the CSV of rejected rows puts before a row's own cells: first, so that a row with cells too few or too many keeps
 * exactly the cells it had, and is read again as it stood.
 */
export const REJECTED_COLUMNS = ['import', 'row', 'line', 'field', 'value', 'code', 'message', 'remedy'] as const

const CODE_AT = REJECTED_COLUMNS.indexOf('code')

/** The code of a quote that is never closed: such a row has no cells, and stands whole in its first. */
export const UNTERMINATED = 'unterminated-quote'

/** The code of lines that an open quote made one row: how they were parted is told by their text alone, which stands whole in the first cell. */
export const QUOTE_OVER_LINES = 'quote-over-lines'

/** Codes of a feature that could not be read as one: it has no cells either, and stands whole, as its JSON, in its first. */
export const UNREADABLE_FEATURE = ['bad-json', 'not-a-feature', 'bad-properties', 'too-deep'] as const

/** The last own column where the rows were features: their geometry as JSON. */
export const GEOMETRY_COLUMN = 'geometry (GeoJSON)'

/** True for the header of a CSV of rejected rows. */
export const isRejectedHeader = (header: readonly string[]): boolean =>
  header.length > REJECTED_COLUMNS.length && REJECTED_COLUMNS.every((name, at) => header[at]?.trim() === name)

/** True where a line of such a file says that its row opened a quote and never closed it. */
export const wasUnterminated = (values: readonly string[]): boolean => firstCode(values) === UNTERMINATED

/** True where a line of such a file says that an open quote made several lines one row. */
export const wasQuoteOverLines = (values: readonly string[]): boolean => firstCode(values) === QUOTE_OVER_LINES

/** A row may be told to be urgent besides. */
const firstCode = (values: readonly string[]): string | undefined => values[CODE_AT]?.split(' | ')[0]

/** True where a line of such a file says that its row was no feature that could be read. */
export const wasUnreadableFeature = (values: readonly string[]): boolean => UNREADABLE_FEATURE.some((code) => code === values[CODE_AT])

/** The text of a record behind its first cells. */
export function textAfterCells(raw: string, count: number, delimiter: string): string {
  let at = 0
  for (let cell = 0; cell < count; cell++) {
    if (raw[at] === '"') at = endOfQuotes(raw, at)
    const next = raw.indexOf(delimiter, at)
    if (next === -1) return ''
    at = next + delimiter.length
  }
  return raw.slice(at)
}

function endOfQuotes(raw: string, start: number): number {
  for (let at = start + 1; ; at += 2) {
    at = raw.indexOf('"', at)
    if (at === -1) return raw.length
    if (raw[at + 1] !== '"') return at + 1
  }
}
