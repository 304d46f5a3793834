import { REJECTED_COLUMNS } from '../report/rejected-columns'
import { DELIMITERS, recordsOfText } from './csv-records'

export interface DelimiterGuess {
  delimiter: string
  /** Characters before the header: the line 'sep=;' that spreadsheets write. */
  skip: number
  note: string | null
}

const NAMES: Readonly<Record<string, string>> = { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'bars' }
const SAMPLE_RECORDS = 25

/** The delimiter that parts the most records of the sample into the same number of cells; the comma where none parts anything. */
export function guessDelimiter(head: string): DelimiterGuess {
  const declared = /^\uFEFF?sep=(.)\r?\n/i.exec(head)
  if (declared?.[1]) return { delimiter: declared[1], skip: declared[0].length, note: null }
  const skip = head.startsWith('\uFEFF') ? 1 : 0
  if (head.startsWith(`${REJECTED_COLUMNS.join(',')},`, skip)) return { delimiter: ',', skip, note: null }
  let best = { delimiter: ',', score: 0 }
  for (const delimiter of DELIMITERS) {
    const score = scoreOf(head.slice(skip), delimiter)
    if (score > best.score) best = { delimiter, score }
  }
  const note = best.delimiter === ',' ? null : `Cells are parted by ${NAMES[best.delimiter]}.`
  return { delimiter: best.delimiter, skip, note }
}

function scoreOf(text: string, delimiter: string): number {
  const records = recordsOfText(text, delimiter).filter((record) => record.raw.trim() !== '').slice(0, SAMPLE_RECORDS)
  const width = records[0]?.values.length ?? 0
  if (width < 2) return 0
  const agreeing = records.filter((record) => record.values.length === width).length
  return (agreeing / records.length) * Math.log2(width + 1)
}
