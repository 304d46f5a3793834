import { recogniseUnit } from '@/lib/units/detect'
import { isUnit } from '@/lib/units/convert'
import { findField } from '../kinds/kinds'
import { columnsOf } from '../normalise/columns'
import { type ColumnMapping, type DateOrder, FileRefusal, type Mapping, type RawRow } from '../types'
import { columnCalled, type FieldChoice, withChosenFields } from './choose-fields'

/** What a person says of a file at the import, over what is guessed or remembered: as the mapping of the page holds it. */
export interface Said {
  fields?: readonly FieldChoice[]
  /** The unit of a column, by the field that it holds or by its header. */
  units?: readonly { of: string; unit: string }[]
  timeZone?: string
  dateOrder?: DateOrder
  decimalComma?: boolean
  values?: Readonly<Record<string, string>>
}

/**
 * A guessed mapping with what a person said. What does not fit the file is left for `mappingProblems` to name.
 * @throws FileRefusal mapping: a unit for a column that there is none of, or for a field that has none
 */
export function withSaid(mapping: Mapping, { fields = [], units = [], timeZone, dateOrder, decimalComma, values }: Said, columns: readonly string[], rows: readonly RawRow[]): Mapping {
  const chosen = withChosenFields(mapping, fields, columns, rows)
  return {
    ...chosen,
    columns: units.reduce((mapped, { of, unit }) => withUnit({ ...chosen, columns: mapped }, of, unit, columns), chosen.columns),
    ...(timeZone !== undefined && { timeZone }), ...(dateOrder !== undefined && { dateOrder }), ...(decimalComma !== undefined && { decimalComma }),
    ...(values !== undefined && { values: { ...chosen.values, ...values } }),
  }
}

function withUnit(mapping: Mapping, of: string, written: string, columns: readonly string[]): ColumnMapping[] {
  const header = columnCalled(of, columns)
  const isMeant = ({ column, field }: ColumnMapping): boolean => field !== null && (field === of || column === header)
  const meant = mapping.columns.find(isMeant)
  if (!meant) {
    throw new FileRefusal('mapping', `No column is read as '${of}', so it has no unit that could be set. ${columnsOf(columns)}`,
      'Name a field that a column is read as, or the header of such a column.')
  }
  const unit = isUnit(written) ? written : recogniseUnit(written)
  if (unit === null || findField(mapping.kind, meant.field!)?.unit === undefined) {
    const why = unit === null ? `'${written}' is no unit that is known.` : `${meant.field} has no unit.`
    throw new FileRefusal('mapping', why, 'Name a field with a unit, and one of its units.')
  }
  return mapping.columns.map((one) => (isMeant(one) ? { ...one, unit, basis: 'user' } : one))
}
