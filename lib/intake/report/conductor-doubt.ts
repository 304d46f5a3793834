import type { ByTable, ConductorDoubt } from '@/lib/condition'
import type { RowIssue } from '../types'

/** Why a ratio is provisional, and against what it was taken: the lower of the two, since the worse ratio governs. */
export function doubtSentence({ conductor, conductorUohm, expectedUohm }: Pick<ConductorDoubt, 'conductor' | 'conductorUohm' | 'expectedUohm'>): string {
  return `Provisional: the conductor reads ${conductorUohm.toFixed(1)} µΩ, ${(conductorUohm / expectedUohm).toFixed(2)} times the `
    + `${expectedUohm.toFixed(1)} µΩ of ${conductor} over the same electrode span. The lower of the two is taken, since the worse ratio governs.`
}

/** What a ratio stands against where no conductor reading could be used. */
export function tableSentence({ conductor, uohm, typed }: ByTable): string {
  const why = typed === undefined ? 'none was measured' : `'${typed}' cannot be a conductor reading`
  return `${typed === undefined ? 'By' : 'Provisional: by'} the table's conductor, not measured: ${uohm.toFixed(1)} µΩ of ${conductor} over the electrode span, since ${why}.`
}

/** A caution about a conductor reading that cannot be that of the conductor on record; the row is read all the same. */
export function conductorIssue(doubt: ConductorDoubt, row: number): Omit<RowIssue, 'raw'> {
  return {
    severity: 'warning', row, field: 'conductor_uohm', value: String(doubt.conductorUohm), code: 'conductor-doubtful',
    message: doubtSentence(doubt),
    remedy: `Check the conductor reading, the electrode span and the code word on record${doubt.fitting === '' ? '' : ` (the reading would fit ${doubt.fitting})`}. `
      + 'Where the reading is wrong, measure the conductor again.',
  }
}
