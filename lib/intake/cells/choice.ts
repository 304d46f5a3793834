import type { Field } from '../kinds/field'
import type { CellReport, ReadCell } from './cell-report'
import { refuseSpreadsheetCell } from './spreadsheet'
import { suggest } from './suggest'
import { saysNothing, wordToken } from './word'

type Words = ReadonlyMap<string, string>

function wordsOf(field: Field): Words {
  const words = new Map<string, string>()
  for (const [word, others] of Object.entries(field.choices ?? {})) {
    for (const other of [word, ...others]) words.set(wordToken(other), word)
  }
  return words
}

function refuseWord(text: string, words: Words, field: Field, report: CellReport): undefined {
  const near = suggest(wordToken(text), words)
  const all = Object.keys(field.choices ?? {}).join(', ')
  const question = near ? ` Did you mean '${near}'?` : ''
  return report.refuse('unknown-word', text, `is not a word this column knows.${question}`, `Write one of: ${all}.`)
}

/** One of the field's words, in any case and with blanks or hyphens as people like. */
export function choiceReader(field: Field): ReadCell {
  const words = wordsOf(field)
  return (text, report) => {
    const word = words.get(wordToken(text))
    if (word !== undefined) return word
    if (saysNothing(text)) return null
    return refuseSpreadsheetCell(text, report) ? undefined : refuseWord(text, words, field, report)
  }
}

const split = (text: string): string[] => {
  const parts = text.includes(';') ? text.split(';') : text.split(/[|\n]/)
  return parts.map((part) => part.trim()).filter((part) => part !== '')
}

/** Free words parted by ';', or the field's words, each once; a comma parts the field's words too. */
export function listReader(field: Field): ReadCell {
  if (!field.choices) return (text, report) => (refuseSpreadsheetCell(text, report) ? undefined : [...new Set(split(text))])
  const words = wordsOf(field)
  return (text, report) => {
    if (refuseSpreadsheetCell(text, report)) return undefined
    const found = new Set<string>()
    for (const part of split(text.includes(';') ? text : text.replaceAll(',', ';'))) {
      const word = words.get(wordToken(part))
      if (word === undefined && !saysNothing(part)) return refuseWord(part, words, field, report)
      if (word !== undefined) found.add(word)
    }
    return [...found]
  }
}

const YES = new Set(['yes', 'y', 'true', 't', '1', 'x', 'on'])
const NO = new Set(['no', 'n', 'false', 'f', '0', 'off'])

export const readBoolean: ReadCell = (text, report) => {
  const word = text.toLowerCase()
  if (YES.has(word)) return true
  if (NO.has(word)) return false
  if (saysNothing(text)) return null
  return refuseSpreadsheetCell(text, report) ? undefined : report.refuse(
    'not-yes-no', text, 'is neither yes nor no.', 'Write yes or no, or leave it empty.'
  )
}
