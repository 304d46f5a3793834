import type { CellReport, ReadCell } from './cell-report'
import { SWAPPED, SWAPPED_ROW_REMEDY } from '../report/swapped'
import { parseDecimal, plainNumber } from './number'
import { refuseSpreadsheetCell } from './spreadsheet'
import { saysNothing } from './word'

const PARTS = /^([NSEW])?\s*([+-]?\d{1,3}(?:[.,]\d+)?)\s*(?:°|º|d|deg|\s|:)\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:'|′|’|m|min|:|\s)?\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:"|″|”|''|s|sec)?)?)?\s*([NSEW])?$/i
const LETTERED = /^([NSEW])?\s*([+-]?\d{1,3}(?:[.,]\d+)?)\s*°?\s*([NSEW])?$/i

/**
 * Degrees out of -112.0417, 112.0417 W, 47°31'05.5"N or 47 31.0917 N. Range is checked where both coordinates are at hand.
 * @param letters hemispheres of this coordinate: 'EW' for longitudes, 'NS' for latitudes
 */
export function coordinateReader(letters: 'EW' | 'NS', decimalComma: boolean | undefined): ReadCell {
  return (text, report) => {
    const plain = plainNumber(text)
    if (!Number.isNaN(plain)) return plain
    if (saysNothing(text)) return null
    if (refuseSpreadsheetCell(text, report)) return undefined
    const decimal = text.length > 40 || /\s/.test(text) ? 'not-a-number' : parseDecimal(
      text, decimalComma ?? (/^-?\d{1,3},\d+$/.test(text) ? true : undefined)
    )
    if (typeof decimal === 'number') return decimal
    return degreesMinutesSeconds(text, letters, report)
  }
}

function degreesMinutesSeconds(text: string, letters: 'EW' | 'NS', report: CellReport): number | undefined {
  const lettered = text.length > 40 ? null : LETTERED.exec(text)
  const parts = lettered ? [text, lettered[1], lettered[2], undefined, undefined, lettered[3]] : text.length > 40 ? null : PARTS.exec(text)
  if (!parts?.[2]) {
    return report.refuse('not-a-coordinate', text, 'is no coordinate.', 'Write degrees with a point, WGS84: -112.041733.')
  }
  const number = (part: string | undefined): number => Number((part ?? '0').replace(',', '.'))
  const [minutes, seconds] = [number(parts[3]), number(parts[4])]
  if (minutes >= 60 || seconds >= 60) {
    return report.refuse('not-a-coordinate', text, 'has 60 minutes or seconds or more.', 'Write degrees with a point, WGS84: -112.041733.')
  }
  const letter = (parts[1] ?? parts[5] ?? '').toUpperCase()
  if (letter !== '' && !letters.includes(letter)) {
    return report.refuse(
      SWAPPED, text, `names the hemisphere ${letter} in a column of ${letters === 'EW' ? 'longitudes' : 'latitudes'}.`,
      SWAPPED_ROW_REMEDY,
    )
  }
  const degrees = number(parts[2])
  const size = Math.abs(degrees) + minutes / 60 + seconds / 3600
  return parts[2].startsWith('-') || letter === 'W' || letter === 'S' ? -size : size
}
