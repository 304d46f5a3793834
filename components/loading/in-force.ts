import { allowedA } from '@/lib/condition/governing-limit'
import type { LineJointJson } from '@/lib/contract/loading'
import type { ReckonedSection } from './reckon'

/** A splice with a limit on the register that binds, or did until it lapsed: no weather and no load changes it. */
export interface RegisteredJoint {
  of: LineJointJson
  section: ReckonedSection
  /** Per phase. */
  lineA: number
  mva: number | null
}

/** What binds on a section; also of splices that no heat balance is drawn for. */
function registered(section: ReckonedSection, standing: 'in-force' | 'ask-engineer'): RegisteredJoint[] {
  const { joints, leftOut } = section.section
  return [...joints, ...leftOut].flatMap(({ of }) => (of.limit?.standing === standing ? [{ of, section, lineA: of.limit.line_a, mva: of.limit.mva }] : []))
}

/** What is ranked by: of circuits whose sections carry loads of their own, how much of its section's current each allows. */
export const shareAllowed = ({ section }: Pick<RegisteredJoint, 'section'>, lineA: number): number => lineA / (section.currentA || section.section.of.rating_a || 1)

const tightestFirst = (all: RegisteredJoint[]): RegisteredJoint[] => all.sort((a, b) => shareAllowed(a, a.lineA) - shareAllowed(b, b.lineA))

export const limitsInForce = (sections: readonly ReckonedSection[]): RegisteredJoint[] => tightestFirst(sections.flatMap((section) => registered(section, 'in-force')))
export const lapsedLimits = (sections: readonly ReckonedSection[]): RegisteredJoint[] => tightestFirst(sections.flatMap((section) => registered(section, 'ask-engineer')))

export interface PassedLimit extends RegisteredJoint { overA: number; lapsed: boolean }

/** Limits that the current taken would pass, those in force first and then by how far. */
export function passedLimits(sections: readonly ReckonedSection[]): PassedLimit[] {
  const against = (all: RegisteredJoint[], lapsed: boolean) => all.flatMap((one): PassedLimit[] => {
    const overA = (one.section.currentA ?? 0) - allowedA(one.lineA)
    return overA > 0 ? [{ ...one, overA, lapsed }] : []
  }).sort((a, b) => b.overA - a.overA)
  return [...against(limitsInForce(sections), false), ...against(lapsedLimits(sections), true)]
}
