import type { ReadCell } from './cell-report'
import { refuseSpreadsheetCell } from './spreadsheet'
import { saysNothing, wordToken } from './word'

/** Letters and numbers in use. Colours are not here: red, yellow, blue stand for different phases in different utilities. */
const COMMON: Readonly<Record<string, string>> = {
  a: 'A', b: 'B', c: 'C', 1: 'A', 2: 'B', 3: 'C', l1: 'A', l2: 'B', l3: 'C', r: 'A', s: 'B', t: 'C',
}

/**
 * A, B or C, by the utility's own words first, then A B C, 1 2 3, L1 L2 L3, R S T.
 * @param own the utility's words in any case: { red: 'A' }
 */
export function phaseReader(own: Readonly<Record<string, string>> = {}): ReadCell {
  const letters = new Map(Object.entries(COMMON))
  for (const [word, letter] of Object.entries(own)) letters.set(wordToken(word), letter)
  return (text, report) => {
    const token = wordToken(text)
    const letter = letters.get(token) ?? letters.get(token.replace(/^(phase|ph)|(phase|ph)$/g, ''))
    if (letter !== undefined) return letter
    if (saysNothing(text) || token === 'unknown' || token === 'none') return null
    if (refuseSpreadsheetCell(text, report)) return undefined
    return report.refuse(
      'phase-not-understood', text, 'is no phase this utility is known to use, so the phase counts as not known.',
      'Write A, B or C, or tell the settings what this word stands for.',
    )
  }
}
