import type { Context } from './context'
import { publishedCriteria } from './published-criteria'
import type { Policy } from './policy'
import type { InfraredEvidence, InfraredNote } from './types'

type InconclusiveCause =
  | 'low-load' | 'low-conductor-rise' | 'wind' | 'strong-wind' | 'sun' | 'pixels' | 'emissivity' | 'new-metal' | 'rain' | 'angle'
  | 'load-changed' | 'current-missing' | 'rating-missing' | 'conductor-temperature-and-wind-missing'

const difference = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a - b

const share = (part: number | undefined, whole: number | undefined): number | undefined =>
  part === undefined || whole === undefined || whole <= 0 ? undefined : part / whole

/**
 * One infrared picture as it is shown: differences, why it proves nothing of health, whether it is hot all the same, and
 * the published criteria. No heat balance: the class never rests on this alone.
 */
export function infraredNote(evidence: InfraredEvidence, context: Context): InfraredNote {
  const { policy } = context
  const overConductorK = difference(evidence.spliceTempC, evidence.conductorTempC)
  const overAmbientK = difference(evidence.spliceTempC, evidence.ambientC)
  const inconclusive = causes(evidence, context)
  const ownConductor = evidence.referenceKind === undefined || evidence.referenceKind === 'own-conductor'
  const hot = ownConductor && overConductorK !== undefined && overConductorK > policy.infrared.hotOverConductorK
    && !inconclusive.includes('strong-wind')
  return {
    readingId: evidence.readingId,
    takenAtMs: evidence.takenAtMs,
    survey: evidence.survey,
    lineCurrentA: evidence.lineCurrentA,
    loadShare: share(evidence.lineCurrentA, context.facts.ratingA),
    spliceTempC: evidence.spliceTempC,
    referenceKind: evidence.referenceKind,
    overConductorK: evidence.referenceKind === 'air' ? undefined : overConductorK,
    overAmbientK,
    windMS: evidence.windMS,
    inconclusive,
    hot,
    criteria: publishedCriteria(evidence.referenceKind === 'air' ? undefined : overConductorK, overAmbientK),
  }
}

/** The rules that need no heat balance (common practice, from a sensitivity study; none has a published source). */
function causes(evidence: InfraredEvidence, context: Context): InconclusiveCause[] {
  const { infrared } = context.policy
  const found: InconclusiveCause[] = []
  const { windMS, emissivity, viewAngleDeg } = evidence
  addLoad(found, evidence, context)
  if (windMS !== undefined && windMS > infrared.windMS) found.push('wind')
  if (windMS !== undefined && windMS > infrared.strongWindMS) found.push('strong-wind')
  const riseK = difference(evidence.conductorTempC, evidence.ambientC) ?? difference(evidence.spliceTempC, evidence.ambientC)
  if (evidence.sun === 'direct' && !(riseK !== undefined && riseK >= infrared.sunLeastRiseK)) found.push('sun')
  const pixels = pixelsOverBarrel(evidence, context)
  if (pixels !== undefined && pixels < infrared.leastPixels) found.push('pixels')
  if (emissivity !== undefined && emissivity < infrared.leastEmissivity) found.push('emissivity')
  if (evidence.afterRepair) found.push('new-metal')
  if (evidence.rain1h === true) found.push('rain')
  if (viewAngleDeg !== undefined && viewAngleDeg > infrared.greatestAngleDeg) found.push('angle')
  if (evidence.conductorTempC === undefined && windMS === undefined) found.push('conductor-temperature-and-wind-missing')
  return found
}

function addLoad(found: InconclusiveCause[], evidence: InfraredEvidence, context: Context): void {
  const { infrared } = context.policy
  const { lineCurrentA, current30minA } = evidence
  const currentA = current30minA ?? lineCurrentA
  const { ratingA } = context.facts
  if (currentA === undefined) found.push('current-missing')
  else if (ratingA === undefined) found.push('rating-missing')
  else if (currentA < infrared.leastLoadShare * ratingA) found.push('low-load')
  const riseK = evidence.referenceKind === 'same-fitting' ? undefined : difference(evidence.conductorTempC, evidence.ambientC)
  if (riseK !== undefined && riseK < infrared.leastConductorRiseK) found.push('low-conductor-rise')
  if (lineCurrentA === undefined || current30minA === undefined) return
  if (changed(lineCurrentA, current30minA, context.policy)) found.push('load-changed')
}

const changed = (nowA: number, beforeA: number, policy: Policy): boolean =>
  beforeA === 0 ? nowA > 0 : Math.abs(nowA / beforeA - 1) > policy.infrared.loadChangeShare

/** Barrel diameter over what one pixel covers at the distance; absent where any of the three is not known. */
export function pixelsOverBarrel(evidence: InfraredEvidence, context: Context): number | undefined {
  const { distanceM, ifovMrad } = evidence
  const conductorMm = context.conductor?.diameterMm
  const typicalMm = conductorMm === undefined ? undefined : conductorMm * context.policy.side.typicalBarrelFactor
  const barrelMm = context.facts.barrelOdMm ?? typicalMm
  if (distanceM === undefined || ifovMrad === undefined || barrelMm === undefined || distanceM * ifovMrad <= 0) return undefined
  return barrelMm / (ifovMrad * distanceM)
}
