import { CONDUCTORS, conductorByCode } from '@/lib/condition'
import { editDistance } from '../cells/suggest'

const NAMED = 3
const FAR = 12

/** Known code words, the nearest in spelling first. */
const nearest = (written: string): string[] => [...new Set(CONDUCTORS.map(({ code }) => code))]
  .map((code) => ({ code, away: editDistance(written.toLowerCase(), code.toLowerCase(), FAR) }))
  .sort((a, b) => a.away - b.away || a.code.localeCompare(b.code)).slice(0, NAMED).map(({ code }) => code)

/** What is to be said of a code word that the conductor table does not hold; null where it does. */
export function unknownConductor(written: string): { message: string; remedy: string } | null {
  if (conductorByCode(written) !== null) return null
  return {
    message: `'${written}' is no conductor of the table, so its readings have no table value to stand against.`,
    remedy: `Correct it where it is mistyped (the nearest known: ${nearest(written).join(', ')}); otherwise nothing needs to be done, and conductors are to be measured beside each splice.`,
  }
}
