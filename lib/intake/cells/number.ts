import { convert, unitLabel, unitsAgree, parseFeetStationFt, type Unit } from '@/lib/units/convert'
import { splitCell } from '@/lib/units/detect'
import type { Field } from '../kinds/field'
import { otherOhmUnit } from '../report/ohm-units'
import { setDecimalSign, setUnit, unitOfRow } from '../report/remedies'
import type { CellReport, ReadCell } from './cell-report'
import { isOverRange, overRange } from './over-range'
import { refuseSpreadsheetCell } from './spreadsheet'
import { saysNothing } from './word'

const MAX_NUMBER_CHARS = 64

/** Digits, one point, one minus sign: nearly every cell; NaN for anything that needs a closer look. */
export function plainNumber(text: string): number {
  let points = 0
  let at = text.charCodeAt(0) === 45 ? 1 : 0
  const { length } = text
  if (at === length || length > 18) return Number.NaN
  for (; at < length; at++) {
    const code = text.charCodeAt(at)
    if (code === 46) points++
    else if (code < 48 || code > 57) return Number.NaN
  }
  return points > 1 ? Number.NaN : Number(text)
}

/** Why a text is no number: the reader turns it into a sentence. */
type Trouble = 'not-a-number' | 'ambiguous-number' | 'not-finite'

/**
 * '12,5' and '1.234,5' by decimal comma, '1,234.5' by point, blanks between thousands, exponents.
 * '1,234' could be either, so it is refused unless the mapping says which.
 */
export function parseDecimal(text: string, decimalComma: boolean | undefined): number | Trouble {
  const compact = text.trim().replace(/^[−–]/, '-').replace(/(\d)[\s\u00a0\u2009\u202f](?=\d{3}(?!\d))/g, '$1')
  if (/^[+-]?(nan|inf|infinity|∞)$/i.test(compact)) return 'not-finite'
  const match = /^([+-]?)([\d.,]+)(e[+-]?\d+)?$/i.exec(compact)
  if (!match) return 'not-a-number'
  const digits = placeDecimal(match[2]!, decimalComma)
  if (digits === null) return 'not-a-number'
  if (digits === 'ambiguous') return 'ambiguous-number'
  const value = Number(`${match[1]}${digits}${match[3] ?? ''}`)
  return Number.isNaN(value) ? 'not-a-number' : Number.isFinite(value) ? value : 'not-finite'
}

const grouped = (digits: string, mark: ',' | '.'): boolean => new RegExp(`^\\d{1,3}(\\${mark}\\d{3})+$`).test(digits)

function placeDecimal(digits: string, decimalComma: boolean | undefined): string | 'ambiguous' | null {
  const commas = digits.split(',').length - 1
  const points = digits.split('.').length - 1
  if (commas === 0 && points <= 1) {
    return decimalComma && grouped(digits, '.') && !digits.startsWith('0') ? 'ambiguous' : digits
  }
  if (commas === 1 && points === 0) {
    if (decimalComma) return digits.replace(',', '.')
    if (!grouped(digits, ',') || digits.startsWith('0')) return decimalComma === false ? null : digits.replace(',', '.')
    return decimalComma === false ? digits.replace(',', '') : 'ambiguous'
  }
  const decimal = digits.lastIndexOf(',') > digits.lastIndexOf('.') ? ',' : '.'
  const group = decimal === ',' ? '.' : ','
  const [whole = '', fraction, ...more] = commas > 0 && points > 0 ? digits.split(decimal) : [digits]
  const mark = commas > 0 && points > 0 ? group : commas > 0 ? ',' : '.'
  return more.length === 0 && grouped(whole, mark) ? whole.replaceAll(mark, '') + (fraction === undefined ? '' : `.${fraction}`) : null
}

/** What the header of a column leaves open. */
export interface OpenUnit {
  /** A unit that its header names and the field is not measured in: a number without a unit of its own is refused. */
  foreignUnit?: string
  /** Told the row of each number whose unit neither header nor cell names. */
  assume?: (row: number) => void
}

/** Number of the field's unit out of a cell that speaks `unit`, or names its own. */
export function numberReader(field: Field, unit: Unit | undefined, decimalComma: boolean | undefined, open: OpenUnit = {}): ReadCell {
  const check = rangeCheck(field, unit)
  const converts = unit !== undefined && field.unit !== undefined && unit !== field.unit && unit !== 'ft_station'
  const whole = field.type === 'integer'
  const { foreignUnit, assume } = open
  return (text, report) => {
    let value: number | null | undefined = unit === 'ft_station' || foreignUnit !== undefined ? Number.NaN : plainNumber(text)
    if (Number.isNaN(value)) {
      value = slowNumber(text, field, unit, decimalComma, open, report)
      if (value === undefined || value === null) return value
    } else {
      assume?.(report.row)
      if (converts) value = convert(value, unit, field.unit!)
    }
    if (whole && !Number.isInteger(value)) return report.refuse(
      'not-whole', text, 'is not a whole number.', 'Write a whole number, or leave it empty.'
    )
    return check(value, text, report)
  }
}

function slowNumber(
  text: string, field: Field, unit: Unit | undefined, decimalComma: boolean | undefined, open: OpenUnit, report: CellReport,
): number | null | undefined {
  if (saysNothing(text)) return null
  if (refuseSpreadsheetCell(text, report)) return undefined
  if (isOverRange(text)) return overRange(field, text, report)
  if (text.length > MAX_NUMBER_CHARS) return refuseText(text, 'not-a-number', report)
  const station = parseFeetStationFt(text)
  if (unit === 'ft_station') return stationMetres(text, station, field, decimalComma, report)
  if (text.includes(';')) {
    return report.refuse('several-values', text, 'holds several values.', 'Write one value per row.')
  }
  const parts = splitCell(text)
  if (!parts) return refuseText(text, /^[+-]?(nan|inf|infinity|∞)$/i.test(text) ? 'not-finite' : 'not-a-number', report)
  if (parts.unit === 'ft_station') {
    return report.refuse(
      'feet-station', text, 'looks like a feet station, and this column is not set to feet stations.',
      `Write metres, or ${setUnit(field.name, 'ft_station')}.`
    )
  }
  const number = parseDecimal(parts.numberText, decimalComma)
  if (typeof number !== 'number') return refuseText(text, number, report, decimalComma)
  tellComma(text, parts.numberText, number, decimalComma, report)
  if (open.foreignUnit !== undefined && parts.unit === null && parts.unknownUnit === null) {
    return report.refuse(
      'unknown-unit', text, `stands under a header that names ${open.foreignUnit.slice(0, 20)}, which is no unit this column knows.`,
      `Write the column in ${field.unit ? unitLabel(field.unit) : 'another unit'} and say so in its header, or ${setUnit(field.name)}.`,
    )
  }
  if (parts.unit === null && parts.unknownUnit === null) open.assume?.(report.row)
  return withCellUnit(number, parts.unit, parts.unknownUnit, text, field, unit, report)
}

function stationMetres(
  text: string, station: number | null, field: Field, decimalComma: boolean | undefined, report: CellReport
): number | undefined {
  if (station !== null) return convert(station, 'ft', field.unit ?? 'm')
  const feet = parseDecimal(text, decimalComma)
  if (typeof feet === 'number') return convert(feet, 'ft', field.unit ?? 'm')
  return report.refuse(
    'feet-station', text, 'is no feet station such as 12+34.5.',
    'Write hundreds of feet, a plus sign and the feet beyond, or set another unit for the column.'
  )
}

function withCellUnit(
  number: number, cellUnit: Unit | null, unknownUnit: string | null, text: string, field: Field, columnUnit: Unit | undefined,
  report: CellReport,
): number | undefined {
  if (unknownUnit !== null) {
    if (unknownUnit === '%' && field.max === 1) return number / 100
    const of = /^\/\s*(\d+)$/.exec(unknownUnit)
    if (of && field.max === 1 && Number(of[1]) > 0) return number / Number(of[1])
    return report.refuse(
      'unknown-unit', text, `ends in '${unknownUnit.slice(0, 20)}', which is no unit this column knows.`, unitRemedy(field)
    )
  }
  const unit = cellUnit ?? columnUnit
  if (unit === undefined || field.unit === undefined) {
    if (cellUnit === null) return number
    return report.refuse('wrong-unit', text, `is in ${unitLabel(cellUnit)}, and this column has no unit.`, 'Write the plain number.')
  }
  if (!unitsAgree(unit, field.unit)) {
    return report.refuse(
      'wrong-unit', text, `is in ${unitLabel(unit)}, which cannot be turned into ${unitLabel(field.unit)}.`, unitRemedy(field)
    )
  }
  return convert(number, unit, field.unit)
}

const unitRemedy = (field: Field): string =>
  field.unit ? `Write the number in ${unitLabel(field.unit)}, or with a unit that measures the same.` : 'Write the plain number.'

const ONE_COMMA = /^[+-]?\d+,\d+$/

/** A single comma has two meanings, and one was taken: said row by row unless the column itself tells. */
function tellComma(text: string, numberText: string, number: number, decimalComma: boolean | undefined, report: CellReport): void {
  if (decimalComma === true || !ONE_COMMA.test(numberText)) return
  const taken = decimalComma === false ? 'a mark of thousands' : 'the decimal sign'
  report.warn(
    'comma-in-number', text, `was read as ${number}, its comma as ${taken}.`,
    `Write the number with a decimal point and without marks of thousands, or ${setDecimalSign}.`,
  )
}

function refuseText(text: string, trouble: Trouble, report: CellReport, decimalComma?: boolean): undefined {
  const contradicts = trouble === 'not-a-number' && decimalComma === false ? /^[+-]?\d+,\d+(?=\D*$)/.exec(text)?.[0] : undefined
  if (contradicts !== undefined) {
    return report.refuse(
      'ambiguous-number', text,
      `has a comma where the other numbers have a decimal point: ${contradicts.replace(',', '.')} or ${contradicts.replace(',', '')}.`,
      `Write the number with a decimal point, or ${setDecimalSign}.`,
    )
  }
  if (trouble === 'ambiguous-number') {
    return report.refuse(
      'ambiguous-number', text, 'may be a thousand or a decimal.',
      `Write the number without a mark for thousands, or ${setDecimalSign}.`
    )
  }
  if (trouble === 'not-finite') return report.refuse(
    'not-finite', text, 'is no finite number.', 'Write the measured value, or leave the cell empty.'
  )
  return report.refuse('not-a-number', text, 'is no number.', 'Write a number, or leave the cell empty; words belong in note.')
}

type RangeCheck = (value: number, text: string, report: CellReport) => number | undefined

function rangeCheck(field: Field, unit: Unit | undefined): RangeCheck {
  const { min = -Infinity, max = Infinity } = field
  const label = field.unit ? ` ${unitLabel(field.unit)}` : ''
  return (value, text, report) => {
    if (value >= min && value <= max) return value
    if (field.positive && value <= 0) {
      return report.refuseBounds(
        'not-positive', text, 'is not above zero, so it was not measured.',
        'Measure again, or leave the cell empty where nothing was measured.'
      )
    }
    const now = converted(value, text, label)
    const other = field.unit === 'uohm' && !(splitCell(text)?.unit) ? otherOhmUnit(value, unit) : null
    report.keepOutside({ value, likely: other && { value: other.uohm, word: other.unit.word } })
    if (other) {
      return report.refuseBounds(
        other.unit.looksLike, text, `${now}is ${value < min ? `under ${min}` : `over ${max}`} µΩ and looks like ${other.unit.word}: ${other.unit.key === 'uohm' ? '' : `${text} ${other.unit.label} would be `}${other.uohm} µΩ.`,
        unitOfRow(text, other.unit.label),
      )
    }
    return report.refuseBounds('out-of-range', text, `${now}is outside ${min} to ${max}${label}.`, 'Check the number and the unit of its column.')
  }
}

const converted = (value: number, text: string, label: string): string => {
  const number = String(Number(value.toPrecision(6)))
  return text.includes(number) ? '' : `(${number}${label}) `
}
