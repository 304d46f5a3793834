import type { Mapping } from '../types'
import { swapColumns } from './remedies'

/** Two rows at least, and more than half: one row of one tells nothing of its column. */
export const isMost = (count: number, rows: number): boolean => count >= 2 && count * 2 > rows

export const SWAPPED = 'swapped-lon-lat'

/** Where single rows are so, the row is wrong and not the mapping. */
export const SWAPPED_ROW_REMEDY = 'Swap longitude and latitude in this row.'

/**
 * What to do about swapped coordinates where most rows of a file have them so; null where few have, and each is to be corrected by itself.
 * @param swapped rows with swapped coordinates, of `rows`
 */
export function swappedFileRemedy(swapped: number, rows: number, mapping: Mapping): string | null {
  if (!isMost(swapped, rows)) return null
  return mapping.columns.some(({ field }) => field === 'lon' || field === 'lat')
    ? `Most rows have it so: ${swapColumns}.`
    : 'Most rows have it so: export the file again with the longitude first in every position, as GeoJSON wants it.'
}
