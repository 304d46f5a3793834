import { conductorReference, usableSpan } from './conductor-reference'
import { conductorTemperatureC, expectedUohm } from './conductor-check'
import { conductorByCode } from './conductor-table'
import { contextFor } from './context'
import type { Policy } from './policy'
import type { Reason, ResistanceEvidence, SpliceFacts } from './types'

/** A conductor reading that cannot be that of the conductor on record: the ratio is provisional and the lower of the two governs. */
export interface ConductorDoubt {
  /** Code word on record. */
  conductor: string
  /** Read, over the electrode span of the sides, µΩ. */
  conductorUohm: number
  /** By the table, over the same span, µΩ. */
  expectedUohm: number
  /** Other code words that the reading would fit, comma-separated; empty where none does. */
  fitting: string
}

/** What the reasons of a reading or an assessment say of its conductor reading. */
export function doubtIn(reasons: readonly Reason[]): ConductorDoubt | undefined {
  const values = reasons.find(({ code }) => code === 'conductor-reference-suspect')?.values
  if (!values) return undefined
  return {
    conductor: String(values.conductor), conductorUohm: Number(values.conductorUohm), expectedUohm: Number(values.expectedUohm),
    fitting: String(values.fitting),
  }
}

/** Whether the conductor readings of one row can be those of the conductor on record, by the bands of the policy; undefined where they can. */
export function conductorDoubt(reading: ResistanceEvidence, facts: SpliceFacts, policy: Policy): ConductorDoubt | undefined {
  const conductor = facts.conductorCode === undefined ? null : conductorByCode(facts.conductorCode)
  const spanM = usableSpan(reading.electrodeSpanM)
  if (!conductor || spanM === undefined) return undefined
  const expected = expectedUohm(conductor, usableSpan(reading.conductorSpanM) ?? spanM, conductorTemperatureC([reading], policy))
  const { suspectRel, suspectBelowShare } = policy.reference
  const least = Math.max(1 - suspectRel, suspectBelowShare)
  const fits = (uohm: number | undefined): boolean => uohm === undefined || (uohm >= least * expected && uohm <= (1 + suspectRel) * expected)
  // Nearly every reading ends here: the whole reference is worked out for the others only.
  if (fits(reading.conductorUohm) && fits(reading.conductorBUohm)) return undefined
  return doubtIn(conductorReference([reading], spanM, reading.testCurrent !== 'dead-dc', contextFor(facts, policy)).reasons)
}
