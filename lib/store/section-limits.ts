import { sectionLimit } from '@/lib/condition/current-limit'
import { allowedLineA, limitInWeather } from '@/lib/condition/loading/line-limit'
import { heatedJoint, type HeatedJoint } from '@/lib/condition/loading/line-joint'
import { countsBy, statedLimit, type Limits } from '@/lib/condition/loading/stated-limit'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import type { Policy, SpliceKind } from '@/lib/condition'
import type { SectionSpliceLimit } from '@/lib/contract/limits'
import type { CircuitJointsJson, LineJointJson } from '@/lib/contract/loading'
import { jointsOfCircuit } from './line-joints'
import { currentPolicy } from './policies'
import type { Scope } from './scope'
import { database, type Db } from './transaction'

type Section = CircuitJointsJson['sections'][number]

interface Candidate extends Limits {
  joint: LineJointJson
  heated: HeatedJoint | null
}

/**
 * Of each section the read splice that allows the least in rating weather, by the same reckoning as a load on the line, so that no two
 * screens differ, and the splices without a figure that may allow less still. Only those that allow less than their section: one that does
 * not limit it is no figure for operations.
 */
export async function lowestSpliceLimits(scope: Scope, circuitId: number, db: Db = database()): Promise<SectionSpliceLimit[]> {
  const [line, policy] = await Promise.all([jointsOfCircuit(scope, circuitId, db), currentPolicy(scope, db)])
  return (line?.sections ?? []).flatMap((of) => limitsOfSection(of, (line?.joints ?? []).filter((joint) => joint.section_id === of.id), policy))
}

function limitsOfSection(of: Section, joints: readonly LineJointJson[], policy: Policy): SectionSpliceLimit[] {
  const weather = ratingWeatherOf(policy, of.elevation_m)
  const section = { conductorCode: of.conductor, subconductors: of.subconductors, ratingA: of.rating_a, maxOperatingC: of.max_operating_c, elevationM: of.elevation_m }
  const found = candidates(joints, section, weather, policy)
  const { by, mayBeLower } = statedLimit(found, ceilingA(of.rating_a, found, policy))
  const limit = by?.heated ? limitInWeather(by.heated, section, of.voltage_kv, weather, policy) : null
  const stated = by && limit?.ok && limit.value.limitedBy === 'splice' ? [{ ...told(of, by.joint), figure: true, line_a: limit.value.lineA, mva: limit.value.mva }] : []
  return [...stated, ...mayBeLower.map(({ joint }) => ({ ...told(of, joint), figure: false, line_a: null, mva: null }))]
}

const told = ({ id }: Section, { id: spliceId, splice, class: shown, held }: LineJointJson) => ({ section_id: id, splice_id: spliceId, splice, class: shown, held })

function candidates(joints: readonly LineJointJson[], section: Parameters<typeof heatedJoint>[1], weather: ReturnType<typeof ratingWeatherOf>, policy: Policy): Candidate[] {
  const found = joints.flatMap((joint): Candidate[] => {
    const heated = heatedJoint({
      k: joint.k, upperK: joint.upper_k, kind: joint.kind as SpliceKind, fittingType: joint.fitting_type, barrelOdMm: joint.barrel_od_mm,
    }, section, policy)
    const counts = countsBy(heated, joint)
    if (counts === null) return []
    const reckoned = counts === 'ratio' && typeof heated !== 'string' ? heated : null
    return [{ joint, heated: reckoned, class: joint.class, figure: reckoned !== null && joint.figure, rank: null }]
  })
  const reckoned = found.flatMap((one) => (one.heated ? [one.heated] : []))
  const allowed = allowedLineA(reckoned, weather, policy)
  return found.map((one) => (one.heated ? { ...one, rank: allowed[reckoned.indexOf(one.heated)] ?? null } : one))
}

/** Its rating; without one what its conductor allows. */
function ceilingA(ratingA: number | null, found: readonly Candidate[], policy: Policy): number {
  const heated = found.find((one) => one.heated)?.heated
  const own = ratingA === null && heated ? sectionLimit(heated, policy) : null
  return ratingA ?? (own?.ok ? own.value.lineA : Infinity)
}
