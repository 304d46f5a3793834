import type { DateOrder } from '../types'

/**
 * What a person says of a whole file, in words that hold on the page and by command: 'set its zone at the import (under Intake, or
 * by command --zone America/Boise)'. Every remedy that sends somebody there is made here.
 */
const atImport = (what: string, option: string): string => `${what} at the import (under Intake, or by command ${option})`

/** The same for what was taken for granted already: the import is taken back first, or its rows would stand twice. */
const again = (what: string, option: string): string => `import the file again with ${what} (under Intake, or by command ${option}).`

const otherwise = (what: string, option: string): string => `Nothing needs to be done where that is right; otherwise undo this import, and ${again(`${what} set`, option)}`

export const setUnit = (field: string, unit = 'UNIT'): string => atImport('set the unit of its column', `--unit ${field}=${unit}`)
export const setDecimalSign = atImport('say which sign the file has for decimals', '--decimal comma or --decimal point')
export const setZone = atImport('set the file\'s zone', '--zone America/Denver')
const setDateOrder = atImport('set the order of day and month', '--date-order day-first or month-first')

export const otherUnit = (field: string): string => otherwise('the unit of the column', `--unit ${field}=UNIT`)
export const otherZone = otherwise('the zone', '--zone America/Denver')
export const otherWord = (what: string, field: string, example: string): string => otherwise(what, `--set ${field}=${example}`)
export const otherDateOrder = (taken: DateOrder): string => otherwise('the order of day and month', `--date-order ${taken === 'mdy' ? 'day' : 'month'}-first`)
export const otherColumn = (what: string, field: string): string =>
  `Undo this import, and ${again(`${what} mapped`, `--map "${field}=COLUMN"`)}`

/** A date that goes against the others of its file. */
export const DATE_AGAINST_ORDER = `Correct this date where it is wrong; where the rest of the file is, ${setDateOrder}.`

/** Where most rows have numbers out of range, the unit of the column is wrong. */
export const unitOfColumn = (field: string, unit: string): string =>
  `Most rows have it so: ${setUnit(field, unit)}. Undo this import first where rows of it were read.`

/** Where few rows have it so, another unit for the column would break the others. `text` is the cell as it stands, `unit` what it looks like. */
export const unitOfRow = (text: string, unit: string): string => `Correct this row: write the number with its unit (${text} ${unit}), or in the unit of the column.`

export const swapColumns = `${atImport('swap the columns of longitude and latitude', '--map lon=COLUMN --map lat=COLUMN')}, and import the file again`
