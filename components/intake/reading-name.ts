/** What the intake makes where a row has no number of its own: 32 hexadecimal digits, which say nothing to anybody. */
const HASH = /^[0-9a-f]{32,64}$/

/** What a reading is called: its own number, else the row it stands in. `where` names the file or import, if that is not plain from the place. */
export function readingName(key: string, row: number | undefined, where?: string): string {
  if (!HASH.test(key)) return key
  if (row === undefined) return 'a reading without a number'
  return where === undefined ? `row ${row}` : `row ${row} of ${where}`
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
