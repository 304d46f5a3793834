import type { Policy, SpliceKind } from '@/lib/condition'
import { heatedJoint } from '@/lib/condition/loading/line-joint'
import { limitInWeather } from '@/lib/condition/loading/line-limit'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { Outlook } from '@/lib/contract/outlook'
import type { Warmed } from './joint-temperatures'

/** How much hotter than in rating weather the air is taken, K. */
const HOTTER_BY_K = [5, 10, 15]

/**
 * What a splice with an advised figure may carry in hotter air, the rest of rating weather and its ratio as they are: by the reckoning of a load on
 * its line, and no rating. Empty where its section limits it, and where nothing is advised; short where air is out of the balance's range.
 */
export function inHotterAir(splice: Warmed & Pick<SpliceDetail, 'voltage_kv'>, limit: Outlook['limit'], policy: Policy): Outlook['in_hotter_air'] {
  if (limit?.limited_by !== 'splice') return []
  const section = {
    conductorCode: splice.conductor, subconductors: splice.subconductors, ratingA: splice.rating_a, maxOperatingC: splice.max_operating_c,
    elevationM: splice.elevation_m,
  }
  const at = { k: limit.upper_k, upperK: limit.upper_k, kind: splice.kind as SpliceKind, fittingType: splice.fitting_type, barrelOdMm: splice.barrel_od_mm }
  const joint = heatedJoint(at, section, policy)
  if (typeof joint === 'string') return []
  const rating = ratingWeatherOf(policy, section.elevationM)
  return HOTTER_BY_K.flatMap((byK) => {
    const ambientC = rating.ambientC + byK
    const found = limitInWeather(joint, section, splice.voltage_kv, { ...rating, ambientC }, policy)
    return found.ok ? [{ ambient_c: ambientC, line_a: found.value.lineA }] : []
  })
}
