import type { Field } from '../kinds/field'
import type { ReadCell } from './cell-report'
import { refuseSpreadsheetCell, spreadsheetIdTrouble } from './spreadsheet'

const MAX_ID_CHARS = 200
const MAX_TEXT_CHARS = 20_000

/** Names that may well be dates: a survey is often called by its day. */
const DATES_ALLOWED = new Set(['survey', 'batch'])

/** Text as typed: '045' keeps its zero and '12/3' its slash. */
export function identifierReader(field: Field): ReadCell {
  const datesAllowed = DATES_ALLOWED.has(field.name)
  return (text, report) => {
    if (refuseSpreadsheetCell(text, report)) return undefined
    if (text.length > MAX_ID_CHARS) {
      return report.refuse(
        'too-long', text, `has ${text.length} characters, more than ${MAX_ID_CHARS}.`, 'Shorten the name, or map the column to note.'
      )
    }
    const trouble = datesAllowed ? null : spreadsheetIdTrouble(text)
    if (trouble === 'date') {
      report.warn(
        'spreadsheet-date', text, 'looks like a date that a spreadsheet made of a number such as 12/3.',
        'Format the column as text in the spreadsheet, correct the number and export again.'
      )
    } else if (trouble === 'number') {
      report.warn(
        'spreadsheet-number', text, 'looks like a long number that a spreadsheet rounded.',
        'Format the column as text in the spreadsheet, correct the number and export again.'
      )
    }
    const low = text.toLowerCase()
    return low === 'n/a' || low === 'null' || low === '-' ? null : text.replace(/\s+/g, ' ')
  }
}

/** Remarks and names: anything, but a spreadsheet's error. */
export const readText: ReadCell = (text, report) => {
  if (text.charCodeAt(0) === 35 && refuseSpreadsheetCell(text, report)) return undefined
  if (text.length > MAX_TEXT_CHARS) {
    report.warn(
      'cut-off', text, `has ${text.length} characters; the first ${MAX_TEXT_CHARS} are kept here, and all of them in the raw row.`,
      'Nothing, unless the rest matters.'
    )
    return text.slice(0, MAX_TEXT_CHARS)
  }
  return text
}
