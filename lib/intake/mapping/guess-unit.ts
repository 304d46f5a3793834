import { detectHeaderUnit } from '@/lib/units/detect'
import { foreignHeaderUnit } from '@/lib/units/foreign'
import { plainNumber } from '../cells/number'
import type { FieldNames } from './field-names'
import { compact } from './header-name'
import type { Sample } from './sample'

/** Nobody builds a line of so many kilovolts: such numbers are volts. */
const MOST_KV = 1500

/**
 * Unit of a column by its header, else by what its cells look like, else the template's. Left open where the header names a unit
 * that the field is not measured in.
 */
export function guessUnit({ field, quantity, template }: FieldNames, column: string, sample: Sample): string | undefined {
  if (field.unit === undefined || quantity === null) return undefined
  const named = detectHeaderUnit(column, quantity)
  if (named) return named
  if (compact(column) === template) return field.unit
  if (foreignHeaderUnit(column, quantity) !== null) return undefined
  if (quantity === 'line-distance') {
    const filled = sample.filled(column)
    if (filled.length > 0 && sample.mostly(column, (cell) => /^\d+\+\d{2}(\.\d+)?$/.test(cell))) return 'ft_station'
    if (/mile/i.test(column)) return 'mi'
  }
  if (quantity === 'voltage' && sample.filled(column).some((cell) => plainNumber(cell.split(';')[0]!) > MOST_KV)) return 'v'
  return field.unit
}
