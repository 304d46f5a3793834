import { foreignHeaderUnit } from '@/lib/units/foreign'
import type { OpenUnit } from '../cells/number'
import type { Field } from '../kinds/field'
import { quantityOfField } from '../mapping/field-names'
import { compact } from '../mapping/header-name'
import type { ColumnMapping } from '../types'

/** What the header of a column leaves open about its unit; a unit that the mapping says settles it. */
export function openUnitOf(field: Field, { column, unit }: ColumnMapping): OpenUnit {
  const quantity = quantityOfField(field)
  if (quantity === null || unit !== undefined || compact(column) === compact(field.name)) return {}
  const foreignUnit = foreignHeaderUnit(column, quantity)
  return foreignUnit === null ? {} : { foreignUnit }
}
