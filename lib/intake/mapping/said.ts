import { detectHeaderUnit, recogniseUnit } from '@/lib/units/detect'
import { foreignHeaderUnit } from '@/lib/units/foreign'
import { isUnit, quantityOf, UNIT_KEYS } from '@/lib/units/convert'
import { findField } from '../kinds/kinds'
import { unitFits } from '../cells/reader'
import { RESISTANCES } from '../kinds/resistances'
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
    columns: withSiblings(units.reduce((mapped, { of, unit }) => withUnit({ ...chosen, columns: mapped }, of, unit, columns), chosen.columns), chosen.columns),
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
  const field = findField(mapping.kind, meant.field!)
  if (unit === null || field?.unit === undefined) {
    const why = unit === null ? `'${written}' is no unit that is known.` : `${meant.field} has no unit.`
    throw new FileRefusal('mapping', why, field?.unit === undefined ? 'Name a field with a unit, and one of its units.' : `Write one of: ${UNIT_KEYS.filter((key) => unitFits(field, key)).join(', ')}.`)
  }
  return mapping.columns.map((one) => (isMeant(one) ? { ...one, unit, basis: 'user' } : one))
}

/**
 * One instrument measures sides and conductor, and writes them in one unit: what was said of one resistance column holds for the others whose
 * headers name none, and the report says so.
 */
function withSiblings(columns: ColumnMapping[], before: readonly ColumnMapping[]): ColumnMapping[] {
  const said = columns.filter((one, at) => one !== before[at] && isResistance(one))
  const units = new Set(said.map(({ unit }) => unit))
  const [unit] = units
  if (units.size !== 1 || !unit || !isUnit(unit) || quantityOf(unit) !== 'resistance') return columns
  return columns.map((one, at) => (one === before[at] && isResistance(one) && !namesUnit(one.column) ? { ...one, unit, basis: 'synonym' } : one))
}

const isResistance = ({ field }: ColumnMapping): boolean => field !== null && RESISTANCES.includes(field)

const namesUnit = (column: string): boolean => detectHeaderUnit(column, 'resistance') !== null || foreignHeaderUnit(column, 'resistance') !== null
