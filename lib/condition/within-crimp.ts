import { TYPICAL_LENGTHS } from './body-of-splice'
import type { Context } from './context'
import type { Reason, SideAssessment } from './types'

/** The current passes into a barrel along the whole of its crimp. */
export interface Crimp {
  barrelLengthM: number
  /** From the mouth inwards. */
  crimpedM: number
  /** True where the length is not on record and a usual one stands in. */
  lengthAssumed: boolean
}

/** What of a barrel is crimped at each end; null where nobody can tell: no length on record, and none usual for this kind or conductor. */
export function crimpOf({ facts, conductor, policy }: Pick<Context, 'facts' | 'conductor' | 'policy'>): Crimp | null {
  const usualMm = facts.kind === 'full-tension splice' && conductor ? TYPICAL_LENGTHS * conductor.diameterMm : undefined
  const lengthMm = facts.barrelLengthMm ?? usualMm
  if (lengthMm === undefined) return null
  const barrelLengthM = lengthMm / 1000
  return { barrelLengthM, crimpedM: policy.side.crimpedShare * barrelLengthM, lengthAssumed: facts.barrelLengthMm === undefined }
}

/** Whether part of the side's interface lay outside the reading: its ratio is then at least what was read, which no figure can be drawn from. */
export const isAtLeast = ({ flags }: { flags: readonly string[] }): boolean => flags.includes('interface-not-proved')

/** Whether a splice rests on such a side. */
export const anyAtLeast = (sides: readonly Pick<SideAssessment, 'flags'>[]): boolean => sides.some(isAtLeast)

/** The electrodes of both sides sat alike as a rule: then one reason speaks of both. */
export function oneForBothSides(reasons: Reason[]): Reason[] {
  const [first, second] = reasons.filter(({ code }) => code === 'electrode-within-crimp')
  if (!first || !second || first.values.barrelElectrodeM !== second.values.barrelElectrodeM) return reasons
  const both: Reason = { ...first, values: { ...first.values, side: 'both' }, readingIds: [...new Set([...first.readingIds ?? [], ...second.readingIds ?? []])] }
  return reasons.flatMap((reason) => (reason === first ? [both] : reason === second ? [] : [reason]))
}
