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
  /** 0.001, 1000 or 1,000,000 where sides and conductor are all about so many times what they would be: their unit is in doubt. */
  unitFactor?: number
}

const UNIT_FACTORS = [0.001, 1_000, 1_000_000]
/** How near the conductor comes to its table value once the factor is taken out, and what its sides may then be (limits of sense, no source). */
const NEAR = { conductor: [0.5, 2], side: [0.2, 50] } as const

const within = (value: number, [least, most]: readonly [number, number]): boolean => value >= least && value <= most

function unitFactorOf({ conductorUohm, expectedUohm: expected }: ConductorDoubt, { sideAUohm, sideBUohm }: ResistanceEvidence): number | undefined {
  const sides = [sideAUohm, sideBUohm].filter((side) => side !== undefined)
  if (sides.length === 0) return undefined
  return UNIT_FACTORS.find((factor) =>
    within(conductorUohm / expected / factor, NEAR.conductor) && sides.every((side) => within(side / expected / factor, NEAR.side)))
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
  const doubt = doubtIn(conductorReference([reading], spanM, reading.testCurrent !== 'dead-dc', contextFor(facts, policy)).reasons)
  if (!doubt) return undefined
  const unitFactor = unitFactorOf(doubt, reading)
  return unitFactor === undefined ? doubt : { ...doubt, unitFactor }
}
