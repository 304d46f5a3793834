import type { CellReport } from './cell-report'

const ERROR_CELL = /^#(REF!|N\/A|VALUE!|DIV\/0!|NAME\?|NUM!|NULL!|SPILL!|CALC!|FIELD!|GETTING_DATA|####*)/i

/** '=1+1', '@SUM(A1)', '+cmd': a spreadsheet would run it. A number with its sign is a number. */
export function isFormula(text: string): boolean {
  const first = text.charCodeAt(0)
  if (first === 61 || first === 64) return true
  return (first === 43 || first === 45) && /^[+-]\s*[A-Za-z(@=]/.test(text) && /[(|!=]|^\+/.test(text)
}

/** Errors of a spreadsheet and formulas are no values. True where the report took the cell. */
export function refuseSpreadsheetCell(text: string, report: CellReport): boolean {
  const first = text.charCodeAt(0)
  if (first !== 35 && first !== 61 && first !== 64 && first !== 43 && first !== 45) return false
  if (first === 35 && ERROR_CELL.test(text)) {
    report.refuse(
      'spreadsheet-error', text, 'is an error of the spreadsheet, not a value.', 'Correct the formula in the spreadsheet and export again.'
    )
    return true
  }
  if (isFormula(text)) {
    report.refuse(
      'formula-cell', text, 'is a formula, not a value.',
      'Export the values instead of the formulas (paste special, values), or write the value.'
    )
    return true
  }
  return false
}

/** Our own export puts an apostrophe before what a spreadsheet would run; reading takes it off again. */
export const withoutGuard = (text: string): string => (/^'[=+\-@\t\r]/.test(text) ? text.slice(1) : text)

const MONTH = '(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)'
const DATE_OF_ID = new RegExp(
  [
    `^\\d{1,2}[-\\s]${MONTH}(?:[-\\s]\\d{2,4})?$`, `^${MONTH}[-\\s]\\d{1,4}$`,
    '^\\d{4}-\\d{2}-\\d{2}(?:[ T]00:00(?::00)?)?$', '^\\d{1,2}/\\d{1,2}/\\d{4}$',
  ].join('|'),
  'i',
)
const SCIENTIFIC_ID = /^\d(?:[.,]\d+)?E\+?\d+$/i

/** '12/3' typed into a spreadsheet becomes '3-Dec' and 123000 becomes 1.23E+05; the id that was typed is gone. */
export function spreadsheetIdTrouble(text: string): 'date' | 'number' | null {
  if (text.length > 20) return null
  if (DATE_OF_ID.test(text)) return 'date'
  return SCIENTIFIC_ID.test(text) ? 'number' : null
}
