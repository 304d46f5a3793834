import { isUnit, unitsAgree, type Unit } from '@/lib/units/convert'
import type { Field } from '../kinds/field'
import type { ReadCell } from './cell-report'
import { choiceReader, listReader, readBoolean } from './choice'
import { coordinateReader } from './coordinate'
import { identifierReader, readText } from './identifier'
import { type DateSetting, dayReader, FARTHEST_PLAN_MS, instantReader } from './instant'
import { numberReader, type OpenUnit } from './number'
import { phaseReader } from './phase'

/** What readers of a file share. */
export interface ReaderSetting {
  dates: DateSetting
  decimalComma: boolean | undefined
  /** Told what was taken for granted, in a sentence without its full stop, what to do where that is wrong, and the row. */
  assume: (words: string, remedy: string, row: number) => void
  phaseLetters: Readonly<Record<string, string>> | undefined
}

/** The reader of a field's cells in a column that speaks `unit`. @throws RangeError where the unit measures something else */
export function readerOf(field: Field, unit: string | undefined, setting: ReaderSetting, open: OpenUnit = {}): ReadCell {
  switch (field.type) {
    case 'identifier': return identifierReader(field)
    case 'text': return readText
    case 'number':
    case 'integer': return numberReader(field, columnUnit(field, unit), setting.decimalComma, open)
    case 'boolean': return readBoolean
    case 'choice': return choiceReader(field)
    case 'list': return listReader(field)
    case 'phase': return phaseReader(setting.phaseLetters)
    case 'instant': return instantReader(field.mayLieAhead ? { ...setting.dates, aheadMs: FARTHEST_PLAN_MS } : setting.dates)
    case 'day': return dayReader(setting.dates)
    case 'longitude': return coordinateReader('EW', setting.decimalComma)
    case 'latitude': return coordinateReader('NS', setting.decimalComma)
  }
}

/** True where a column of this unit can hold the field; a column without one speaks the field's own. */
export const unitFits = (field: Field, unit: string | undefined): boolean =>
  unit === undefined || field.unit === undefined || (isUnit(unit) && unitsAgree(unit, field.unit))

function columnUnit(field: Field, unit: string | undefined): Unit | undefined {
  if (!unitFits(field, unit)) throw new RangeError(`A column in ${unit} cannot hold ${field.name}.`)
  return field.unit !== undefined && unit !== undefined && isUnit(unit) ? unit : undefined
}
