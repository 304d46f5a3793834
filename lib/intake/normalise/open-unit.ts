import { isUnit, unitLabel, type Unit } from '@/lib/units/convert'
import { detectHeaderUnit } from '@/lib/units/detect'
import { foreignHeaderUnit } from '@/lib/units/foreign'
import { shown } from '../cells/cell-report'
import type { OpenUnit } from '../cells/number'
import type { Field } from '../kinds/field'
import { fieldLabel } from '../kinds/labels'
import { quantityOfField } from '../mapping/field-names'
import { compact } from '../mapping/header-name'
import { otherUnit } from '../report/remedies'
import { RESISTANCES } from '../kinds/resistances'
import type { ColumnMapping, Mapping } from '../types'

/** Units that are taken where nothing names one; feet stations and miles are known by the cells or the header themselves. */
const TAKEN: Partial<Record<Unit, string>> = {
  uohm: 'micro-ohms', mohm: 'milliohms', ohm: 'ohms', c: 'degrees Celsius', m_s: 'metres per second', m: 'metres', mm: 'millimetres', a: 'amperes', v: 'volts', kv: 'kilovolts',
  deg: 'degrees', mrad: 'milliradians',
}

/** What the header of a column leaves open about its unit; nothing where a person said the unit, or the header is the template's. */
export function openUnitOf(
  mapping: Mapping, field: Field, { column, unit, basis }: ColumnMapping, assume: (words: string, remedy: string, row: number) => void,
): OpenUnit {
  const quantity = quantityOfField(field)
  const isGuess = unit === undefined || basis === 'template' || basis === 'synonym'
  if (quantity === null || !isGuess || compact(column) === compact(field.name) || detectHeaderUnit(column, quantity) !== null) return {}
  const foreignUnit = unit === undefined ? foreignHeaderUnit(column, quantity) : null
  if (foreignUnit !== null) return { foreignUnit }
  const taken = unit === undefined ? TAKEN[field.unit!] : isUnit(unit) ? TAKEN[unit] : undefined
  if (taken === undefined) return {}
  const bracketed = /[([{]([^)\]}]*)[)\]}]\s*$/.exec(column)?.[1]?.trim()
  const unlisted = bracketed ? `, and '(${shown(bracketed)})' in its header is none that is known` : ''
  const words = `No unit is given for ${fieldLabel(mapping.kind, field.name).label}${unlisted}; ${taken} were taken${besideOthers(mapping, field, unit ?? field.unit!)}`
  const remedy = otherUnit(field.name)
  return { assume: (row) => assume(words, remedy, row) }
}

/** Sides and conductor make one ratio: where their units differ, or one was said of another column, it is told. */
function besideOthers({ kind, columns }: Mapping, { name }: Field, taken: string): string {
  if (!RESISTANCES.includes(name)) return ''
  const others = columns.filter(({ field }) => field !== null && field !== name && RESISTANCES.includes(field)).map((one) => ({ ...one, unit: one.unit ?? 'uohm' }))
  const mixed = others.find(({ unit }) => unit !== taken)
  if (mixed) return `, while ${fieldLabel(kind, mixed.field!).label} is in ${isUnit(mixed.unit) ? unitLabel(mixed.unit) : mixed.unit}: a ratio of mixed units is wrong by a thousand`
  return taken === 'uohm' ? '' : ', as for the other resistances'
}
