import { truePicture, type TruePicture } from './camera'
import type { Context } from './context'
import { detectabilityOf, type Detectability } from './detectability'
import { causesOfCircumstance, causesOfLoad, type InconclusiveCause } from './infrared-causes'
import { infraredKOf, kAtEmissivity, windOf, type InfraredK } from './infrared-error'
import { pictureOf } from './infrared-picture'
import type { SunPlace } from './infrared-sun'
import type { InfraredEvidence } from './types'

/** Surfaces between which fittings on lines lie, from bright new metal to long weathered (IEEE Std 738: 0.23 to 0.91 in the field). */
export const BRIGHT_EMISSIVITY = 0.3
export const WEATHERED_EMISSIVITY = 0.9

export interface SurfaceEffect {
  kIfBright: number | null
  kIfWeathered: number | null
}

/** What one picture is worth. */
export interface InfraredVerdict {
  /** Why it proves nothing of health; empty where it is conclusive. */
  causes: InconclusiveCause[]
  /** k by the heat balance, told also where the picture is inconclusive; null where none can be drawn. */
  measured: InfraredK | null
  /** What the ratio owes to the emissivities taken; null with it. */
  surface: SurfaceEffect | null
  /** Null where conductor, load or weather are not known: then the fixed rules of load stand. */
  detectability: Detectability | null
}

/**
 * One infrared picture by the heat balance: k by the reference-conductor method with its error, and whether it is conclusive. Where the balance can
 * say whether a bad splice would have shown, that replaces the fixed rules of load; the other rules always stand.
 * @param taken the picture put right for what the camera had set
 * @param place for the sun; whatever is known of it
 */
export function infraredVerdict(
  evidence: InfraredEvidence, context: Context, place: SunPlace = {}, taken: TruePicture = truePicture(evidence, context.facts, context.policy),
): InfraredVerdict {
  const causes = causesOfCircumstance(taken, context)
  const picture = pictureOf(evidence, context, place, taken)
  if (!picture) {
    addAll(causes, causesOfLoad(taken, context))
    return { causes, measured: null, surface: null, detectability: null }
  }
  const wind = windOf(picture)
  const detectability = detectabilityOf(picture, evidence.referenceKind === 'same-fitting', context.policy, wind)
  if (!detectability) addAll(causes, causesOfLoad(taken, context))
  else if (!detectability.detectable) causes.push('not-detectable')
  const measured = infraredKOf(picture, wind)
  if (!measured.ok) addAll(causes, [measured.error])
  const surface = measured.ok ? { kIfBright: kAtEmissivity(picture, BRIGHT_EMISSIVITY), kIfWeathered: kAtEmissivity(picture, WEATHERED_EMISSIVITY) } : null
  return { causes, measured: measured.ok ? measured.value : null, surface, detectability }
}

function addAll(causes: InconclusiveCause[], more: readonly InconclusiveCause[]): void {
  for (const cause of more) if (!causes.includes(cause)) causes.push(cause)
}
