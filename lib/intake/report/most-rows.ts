import { RESISTANCES } from '../kinds/resistances'
import type { Mapping } from '../types'
import { OHM_UNITS } from './ohm-units'
import { unitOfColumn } from './remedies'
import { isMost, SWAPPED, swappedFileRemedy } from './swapped'

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
  const units = OHM_UNITS.flatMap(({ key, looksLike }) => RESISTANCES.filter((field) => isMost(count(looksLike, field), rows))
    .map((field) => ({ code: looksLike, field, remedy: unitOfColumn(field, key) })))
  return [
    ...swapped === null ? [] : [{ code: SWAPPED, remedy: swapped }],
    ...units,
  ]
}

/** The remedy of an issue by what most rows have. */
export const remedyOf = (issue: { code: string; field?: string; remedy: string }, ofMost: readonly FileRemedy[]): string =>
  ofMost.find(({ code, field }) => code === issue.code && (field === undefined || field === issue.field))?.remedy ?? issue.remedy
