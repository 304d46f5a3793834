import type { SpliceBodies } from '@/lib/condition/body-of-splice'
import { sectionLimit } from '@/lib/condition/current-limit'
import { heatedJoint, sectionBodies, type HeatedJoint, type NotDrawn, type SectionOfLine } from '@/lib/condition/loading/line-joint'
import type { Policy } from '@/lib/condition/policy'
import { SPLICE_KINDS, type SpliceKind } from '@/lib/condition/types'
import type { CircuitJointsJson, LineJointJson } from '@/lib/contract/loading'

export type SectionJson = CircuitJointsJson['sections'][number]

/** A splice that can be reckoned with. */
export interface LineJoint {
  of: LineJointJson
  heated: HeatedJoint
}

/** A section with all that neither weather nor load changes: worked out once, when its data came. */
export interface LineSection {
  of: SectionJson
  facts: SectionOfLine
  /** Null where its conductor is not known: then nothing of it can be drawn. */
  bodies: SpliceBodies | null
  noBodies: NotDrawn | null
  /** What the section itself allows, per phase: its rating, else that of its conductor. No splice is said to allow more. Null: not known. */
  capA: number | null
  /** In line order. */
  joints: LineJoint[]
  leftOut: { of: LineJointJson; why: NotDrawn }[]
}

const kindOf = (kind: string): SpliceKind => SPLICE_KINDS.find((one) => one === kind) ?? 'other'

function capOf(bodies: SpliceBodies, { subconductors, ratingA, elevationM }: SectionOfLine, policy: Policy): number | null {
  const found = sectionLimit({ bodies, subconductors: Math.max(1, subconductors), ratingA: ratingA ?? undefined, elevationM: elevationM ?? undefined }, policy)
  return found.ok ? found.value.lineA : null
}

export function lineSections(circuits: readonly CircuitJointsJson[], policy: Policy): LineSection[] {
  return circuits.flatMap(({ sections, joints }) => sections.map((of): LineSection => {
    const facts: SectionOfLine = {
      conductorCode: of.conductor, subconductors: of.subconductors, ratingA: of.rating_a, maxOperatingC: of.max_operating_c, elevationM: of.elevation_m,
    }
    const bodies = sectionBodies(facts, null, policy)
    const section: LineSection = {
      of, facts, joints: [], leftOut: [], capA: typeof bodies === 'string' ? of.rating_a : capOf(bodies, facts, policy),
      ...(typeof bodies === 'string' ? { bodies: null, noBodies: bodies } : { bodies, noBodies: null }),
    }
    for (const joint of joints) {
      if (joint.section_id !== of.id) continue
      const heated = heatedJoint({
        kind: kindOf(joint.kind), fittingType: joint.fitting_type, barrelOdMm: joint.barrel_od_mm, k: joint.k, upperK: joint.upper_k,
      }, facts, policy)
      if (typeof heated === 'string') section.leftOut.push({ of: joint, why: heated })
      else section.joints.push({ of: joint, heated })
    }
    return section
  }))
}
