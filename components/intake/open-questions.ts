import type { ImportPreview, MappingJson } from '@/lib/contract/intake'

/** What a file may leave open, and a person says for all of it. */
export interface OpenQuestions {
  dateOrder: boolean
  decimals: boolean
  /** Fields of few words that no column holds. */
  words: string[]
}

const COMMA_CODES = new Set(['comma-in-number', 'ambiguous-number'])

/** Only what this file leaves open, or what was said of it: nobody is asked for what the rows tell. */
export function openQuestions({ notes, rows, kind }: ImportPreview, mapping: MappingJson): OpenQuestions {
  const says = (words: RegExp) => notes.some((note) => words.test(note))
  const mapped = new Set(mapping.columns.map(({ field }) => field))
  const asked = (field: string, isOpen: boolean) => (!mapped.has(field) && (isOpen || mapping.values?.[field] !== undefined) ? [field] : [])
  return {
    dateOrder: mapping.dateOrder !== undefined || says(/whether days or months come first/),
    decimals: mapping.decimalComma === true || rows.some(({ issues }) => issues.some(({ code }) => COMMA_CODES.has(code))),
    words: [
      ...kind === 'splices' ? asked('kind', says(/^No kind of fitting/)) : [],
      ...kind === 'readings' ? [...asked('kind', says(/^Rows without a kind/)), ...asked('position_of', says(/^Nothing says whether the position/))] : [],
    ],
  }
}
