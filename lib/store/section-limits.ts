import { allowedLineA, limitInWeather } from '@/lib/condition/loading/line-limit'
import { heatedJoint } from '@/lib/condition/loading/line-joint'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import type { SpliceKind } from '@/lib/condition'
import type { SectionSpliceLimit } from '@/lib/contract/limits'
import { jointsOfCircuit } from './line-joints'
import { currentPolicy } from './policies'
import type { Scope } from './scope'
import { database, type Db } from './transaction'

/**
 * Of each section the read splice that allows the least in rating weather, by the same reckoning as a load on the line, so that no two
 * screens differ. Only those that allow less than their section: one that does not limit it is no figure for operations.
 */
export async function lowestSpliceLimits(scope: Scope, circuitId: number, db: Db = database()): Promise<SectionSpliceLimit[]> {
  const [line, policy] = await Promise.all([jointsOfCircuit(scope, circuitId, db), currentPolicy(scope, db)])
  const weather = ratingWeatherOf(policy)
  return (line?.sections ?? []).flatMap((of): SectionSpliceLimit[] => {
    const section = { conductorCode: of.conductor, subconductors: of.subconductors, ratingA: of.rating_a, maxOperatingC: of.max_operating_c }
    const heated = (line?.joints ?? []).flatMap((joint) => {
      if (joint.section_id !== of.id || joint.basis === 'unread') return []
      const found = heatedJoint({
        k: joint.k, upperK: joint.upper_k, kind: joint.kind as SpliceKind, fittingType: joint.fitting_type, barrelOdMm: joint.barrel_od_mm,
      }, section, policy)
      return typeof found === 'string' ? [] : [{ joint, found }]
    })
    const allowed = allowedLineA(heated.map(({ found }) => found), weather, policy)
    const lowest = heated[allowed.indexOf(Math.min(...allowed))]
    if (!lowest) return []
    const limit = limitInWeather(lowest.found, section, of.voltage_kv, weather, policy)
    if (!limit.ok || limit.value.limitedBy !== 'splice') return []
    const { id, splice, class: shown, held, figure } = lowest.joint
    return [{ section_id: of.id, splice_id: id, splice, class: shown, held, figure, line_a: limit.value.lineA, mva: limit.value.mva }]
  })
}
