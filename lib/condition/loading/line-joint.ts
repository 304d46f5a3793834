import { bodiesOf, type SpliceBodies } from '../body-of-splice'
import { conductorByCode } from '../conductor-table'
import { HEAT_RANGES } from '../heat/ranges'
import { scaledResistance } from '../heat/line-resistance'
import type { LineResistance } from '../heat/weather'
import { interfacesOf, whyNotByRatio } from '../interfaces'
import type { Policy } from '../policy'
import type { SpliceKind } from '../types'
import type { CarriedK } from './carried-k'

/** What is known of a section; null where it is not. Ratings per phase. */
export interface SectionOfLine {
  conductorCode: string | null
  subconductors: number
  ratingA: number | null
  maxOperatingC: number | null
  elevationM: number | null
}

export interface JointOfLine extends Pick<CarriedK, 'k' | 'upperK'> {
  kind: SpliceKind
  fittingType: string | null
  barrelOdMm: number | null
}

/** Why no temperature can be worked out for a splice. */
export const NOT_DRAWN = ['shield-wire', 'automatic', 'no-barrel', 'no-conductor', 'conductor-not-in-table', 'ratio-out-of-range'] as const
export type NotDrawn = (typeof NOT_DRAWN)[number]

/** A splice ready for the heat balance: everything that neither weather nor load changes, worked out once. */
export interface HeatedJoint {
  bodies: SpliceBodies
  subconductors: number
  k: number
  upperK: number
  resistance: LineResistance
  upperResistance: LineResistance
}

/** Surfaces are those of rating weather: what is shown at rating weather is what limits are drawn from. */
export function heatedJoint(joint: JointOfLine, section: SectionOfLine, policy: Policy): HeatedJoint | NotDrawn {
  const whyNot = whyNotByRatio({ kind: joint.kind, fittingType: joint.fittingType ?? undefined, subconductors: section.subconductors })
  if (whyNot !== null) return whyNot
  if (interfacesOf(joint.kind).barrelSides.length === 0) return 'no-barrel'
  const bodies = sectionBodies(section, joint.barrelOdMm, policy)
  if (typeof bodies === 'string') return bodies
  const [least, greatest] = HEAT_RANGES.k
  if (!(joint.k > 0 && joint.k <= greatest && joint.upperK <= greatest)) return 'ratio-out-of-range'
  return heatedWith(bodies, section.subconductors, Math.max(joint.k, least), joint.upperK)
}

/** @param k 0.05 … 100 */
export function heatedWith(bodies: SpliceBodies, subconductors: number, k: number, upperK: number): HeatedJoint {
  const { resistance } = bodies.conductor
  const worse = Math.max(upperK, k)
  return {
    bodies, subconductors: Math.max(1, subconductors), k, upperK: worse, resistance: scaledResistance(resistance, k),
    upperResistance: scaledResistance(resistance, worse),
  }
}

/** Conductor and barrel of a section. @param barrelOdMm null: a typical one */
export function sectionBodies(
  section: SectionOfLine, barrelOdMm: number | null, policy: Policy, surface: { emissivity: number; absorptivity: number } = policy.ratingWeather,
): SpliceBodies | 'no-conductor' | 'conductor-not-in-table' {
  if (section.conductorCode === null) return 'no-conductor'
  const conductor = conductorByCode(section.conductorCode)
  const facts = { kind: 'full-tension splice' as const, subconductors: section.subconductors, barrelOdMm: barrelOdMm ?? undefined }
  return bodiesOf({ conductor, facts, policy }, surface.emissivity, surface.absorptivity) ?? 'conductor-not-in-table'
}
