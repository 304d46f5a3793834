import type { Mapping } from '../types'
import { MILLIOHM, milliohmColumn } from './remedies'
import { isMost, SWAPPED, swappedFileRemedy } from './swapped'

const MEASURED = ['side_a_uohm', 'side_b_uohm', 'conductor_uohm', 'conductor_b_uohm']

/** What to do about every issue of a code (and field, where one is named). */
export interface FileRemedy {
  code: string
  field?: string
  remedy: string
}

/**
 * Where most rows have the same fault, the mapping is wrong and not the row: what to do then, instead of what stands at each row.
 * @param count issues of a code, of one field where it is named
 */
export function remediesOfMost(count: (code: string, field?: string) => number, rows: number, mapping: Mapping): FileRemedy[] {
  const swapped = swappedFileRemedy(count(SWAPPED), rows, mapping)
  const milliohm = MEASURED.filter((field) => isMost(count(MILLIOHM, field), rows))
  return [
    ...swapped === null ? [] : [{ code: SWAPPED, remedy: swapped }],
    ...milliohm.map((field) => ({ code: MILLIOHM, field, remedy: milliohmColumn(field) })),
  ]
}

/** The remedy of an issue by what most rows have. */
export const remedyOf = (issue: { code: string; field?: string; remedy: string }, ofMost: readonly FileRemedy[]): string =>
  ofMost.find(({ code, field }) => code === issue.code && (field === undefined || field === issue.field))?.remedy ?? issue.remedy
