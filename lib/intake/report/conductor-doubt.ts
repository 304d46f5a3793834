import type { ByTable, ConductorDoubt } from '@/lib/condition'
import type { RowIssue } from '../types'
import { OHM_UNITS, type OhmUnit } from './ohm-units'
import { setUnit } from './remedies'

/** Why a ratio is provisional, and against what it was taken: the lower of the two, since the worse ratio governs. */
export function doubtSentence({ conductor, conductorUohm, expectedUohm, unitFactor }: Omit<ConductorDoubt, 'fitting'>): string {
  return `Provisional: the conductor reads ${conductorUohm.toFixed(1)} µΩ, ${(conductorUohm / expectedUohm).toFixed(2)} times the `
    + `${expectedUohm.toFixed(1)} µΩ of ${conductor} over the same electrode span. The lower of the two is taken, since the worse ratio governs.`
    + (unitFactor === undefined ? '' : ` Sides and conductor are all about ${timesWords(unitFactor)} what they would be, so the unit of their columns may be wrong.`)
}

const timesWords = (factor: number): string => (factor < 1 ? 'a thousandth of' : `${factor === 1_000 ? '1,000' : '1,000,000'} times`)

/** The doubt as it stands in a notice. */
export const noticeDoubt = ({ conductor, conductor_uohm: conductorUohm, expected_uohm: expectedUohm, unit_factor: unitFactor }: NoticeDoubt): string =>
  doubtSentence({ conductor, conductorUohm, expectedUohm, ...(unitFactor !== undefined && { unitFactor }) })

interface NoticeDoubt { conductor: string; conductor_uohm: number; expected_uohm: number; unit_factor?: number | undefined }

/** The unit in which numbers that are so many times too high in another one would land in range; null where there is none. */
function unitInRange(unit: string | undefined, factor: number): OhmUnit | null {
  const size = OHM_UNITS.find(({ key }) => key === (unit ?? 'uohm'))?.uohm
  return OHM_UNITS.find(({ uohm }) => size !== undefined && Math.abs(size / factor / uohm - 1) < 1e-9) ?? null
}

function unitRemedy(factor: number, unit: string | undefined): string {
  const landing = unitInRange(unit, factor)
  return landing === null
    ? 'Check the unit of the resistance columns first. '
    : `Check the unit of the resistance columns first: taken as ${landing.label} the numbers are in range. `
      + `Where they are ${landing.label}, undo this import, ${setUnit('side_a_uohm', landing.key)}, and import the file again. `
}


/** What a ratio stands against where no conductor reading could be used. */
export function tableSentence({ conductor, uohm, typed }: ByTable): string {
  const why = typed === undefined ? 'none was measured' : `'${typed}' cannot be a conductor reading`
  return `${typed === undefined ? 'By' : 'Provisional: by'} the table's conductor, not measured: ${uohm.toFixed(1)} µΩ of ${conductor} over the electrode span, since ${why}.`
}

/**
 * A caution about a conductor reading that cannot be that of the conductor on record; the row is read all the same.
 * @param unit of the conductor's column, as it was read
 */
export function conductorIssue(doubt: ConductorDoubt, row: number, unit?: string): Omit<RowIssue, 'raw'> {
  return {
    severity: 'warning', row, field: 'conductor_uohm', value: String(doubt.conductorUohm), code: 'conductor-doubtful',
    message: doubtSentence(doubt),
    remedy: `${doubt.unitFactor === undefined ? '' : unitRemedy(doubt.unitFactor, unit)}Check the conductor reading, the electrode span and the code word on record${doubt.fitting === '' ? '' : ` (the reading would fit ${doubt.fitting})`}. `
      + 'Where the reading is wrong, measure the conductor again.',
  }
}
