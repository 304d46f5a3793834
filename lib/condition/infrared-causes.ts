import type { TruePicture } from './camera'
import type { Context } from './context'
import type { Policy } from './policy'
import { pixelsOver } from './radiometry/spot'
import type { InfraredEvidence } from './types'

/** Why a picture proves nothing of health. */
export type InconclusiveCause =
  | 'low-load' | 'low-conductor-rise' | 'wind' | 'strong-wind' | 'sun' | 'pixels' | 'emissivity' | 'new-metal' | 'rain' | 'angle'
  | 'load-changed' | 'current-missing' | 'rating-missing' | 'conductor-temperature-and-wind-missing'
  /** By the heat balance: a bad splice would hardly have shown; or the temperatures do not go with the current. */
  | 'not-detectable' | 'conductor-hotter-than-current' | 'conductor-colder-than-current' | 'splice-colder-than-model' | 'out-of-range'
  /** By what the camera had set: more is reflected than it saw, or no camera and no surface has such figures. */
  | 'reflection-exceeds-signal' | 'camera-settings'

const difference = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a - b

/** Rules that hold whatever the load was (common practice, from a sensitivity study; none has a published source). */
export function causesOfCircumstance({ evidence, surfaces, cause }: TruePicture, context: Context): InconclusiveCause[] {
  const { infrared } = context.policy
  const found: InconclusiveCause[] = []
  const { windMS, viewAngleDeg, lineCurrentA, current30minA } = evidence
  if (lineCurrentA === undefined && current30minA === undefined) found.push('current-missing')
  if (lineCurrentA !== undefined && current30minA !== undefined && changed(lineCurrentA, current30minA, context.policy)) found.push('load-changed')
  if (windMS !== undefined && windMS > infrared.windMS) found.push('wind')
  if (windMS !== undefined && windMS > infrared.strongWindMS) found.push('strong-wind')
  const riseK = difference(evidence.conductorTempC, evidence.ambientC) ?? difference(evidence.spliceTempC, evidence.ambientC)
  if (evidence.sun === 'direct' && !(riseK !== undefined && riseK >= infrared.sunLeastRiseK)) found.push('sun')
  const pixels = pixelsOverBarrel(evidence, context)
  if (pixels !== undefined && pixels < infrared.leastPixels) found.push('pixels')
  if (evidence.afterRepair) found.push('new-metal')
  else if (surfaces.barrel.emissivity < infrared.leastEmissivity) found.push('emissivity')
  if (cause !== undefined) found.push(cause)
  if (evidence.rain1h === true) found.push('rain')
  if (viewAngleDeg !== undefined && viewAngleDeg > infrared.greatestAngleDeg) found.push('angle')
  if (evidence.conductorTempC === undefined && windMS === undefined) found.push('conductor-temperature-and-wind-missing')
  return found
}

/** The fixed rules of load: they stand where the heat balance cannot say whether a bad splice would have shown. */
export function causesOfLoad({ evidence }: Pick<TruePicture, 'evidence'>, context: Context): InconclusiveCause[] {
  const { infrared } = context.policy
  const found: InconclusiveCause[] = []
  const currentA = evidence.current30minA ?? evidence.lineCurrentA
  const { ratingA } = context.facts
  if (currentA !== undefined && ratingA === undefined) found.push('rating-missing')
  if (currentA !== undefined && ratingA !== undefined && currentA < infrared.leastLoadShare * ratingA) found.push('low-load')
  const riseK = evidence.referenceKind === 'same-fitting' ? undefined : difference(evidence.conductorTempC, evidence.ambientC)
  if (riseK !== undefined && riseK < infrared.leastConductorRiseK) found.push('low-conductor-rise')
  return found
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
  const pixels = pixelsOver(barrelMm, ifovMrad, distanceM)
  // An angle that no lens has, so small that it divides to infinity, tells nothing.
  return Number.isFinite(pixels) ? pixels : undefined
}
