import { truePicture, type TruePicture } from './camera'
import type { Context } from './context'
import { causesOfCircumstance, causesOfLoad, pixelsOverBarrel } from './infrared-causes'
import { infraredVerdict, type InfraredVerdict } from './infrared-k'
import type { Policy } from './policy'
import { publishedCriteria } from './published-criteria'
import type { InfraredEvidence, InfraredNote } from './types'

const difference = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a - b

const share = (part: number | undefined, whole: number | undefined): number | undefined =>
  part === undefined || whole === undefined || whole <= 0 ? undefined : part / whole

/** Only a compressed barrel is the cylinder that the heat balance knows; of other fittings the fixed rules speak. */
const verdictOf = (evidence: InfraredEvidence, context: Context, taken: TruePicture): InfraredVerdict =>
  context.interfaces.barrelSides.length > 0
    ? infraredVerdict(evidence, context, context.facts, taken)
    : { causes: [...causesOfCircumstance(taken, context), ...causesOfLoad(taken, context)], measured: null, surface: null, detectability: null }

/** Of metal so bright that a picture proves nothing the heat is taken as read: put right, a little error of its emissivity would make any of it hot. */
function heatOf({ surfaces: { barrel }, corrected }: TruePicture, asReadK: number | undefined, { infrared }: Policy): number | undefined {
  if (corrected === undefined || barrel.emissivity < infrared.leastEmissivity) return asReadK
  return difference(corrected.spliceTempC, corrected.conductorTempC)
}

/**
 * One infrared picture as it is shown: differences as read and put right, the ratio by the heat balance where it can be told, why it proves nothing of health,
 * whether it is hot all the same, and the published criteria beside it.
 */
export function infraredNote(evidence: InfraredEvidence, context: Context): InfraredNote {
  const { policy } = context
  const overConductorK = difference(evidence.spliceTempC, evidence.conductorTempC)
  const overAmbientK = difference(evidence.spliceTempC, evidence.ambientC)
  const taken = truePicture(evidence, context.facts, policy)
  const { causes, measured, surface, detectability } = verdictOf(evidence, context, taken)
  const ownConductor = evidence.referenceKind === undefined || evidence.referenceKind === 'own-conductor'
  const heatOverConductorK = ownConductor ? heatOf(taken, overConductorK, policy) : undefined
  const hot = heatOverConductorK !== undefined && heatOverConductorK > policy.infrared.hotOverConductorK && !causes.includes('strong-wind')
  const { corrected, shown, surfaces } = taken
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
    k: measured?.k,
    uLnK: measured?.uLnK,
    effectiveWindMS: measured?.windFrom === 'conductor' ? measured.windMS : undefined,
    camera: shown?.settings,
    surfaces,
    trueSpliceC: corrected?.spliceTempC,
    trueConductorC: corrected && evidence.referenceKind !== 'air' ? corrected.conductorTempC : undefined,
    trueOverConductorK: evidence.referenceKind === 'air' ? undefined : difference(corrected?.spliceTempC, corrected?.conductorTempC),
    trueOverAmbientK: difference(corrected?.spliceTempC, evidence.ambientC),
    heatOverConductorK,
    kIfBright: surface?.kIfBright ?? undefined,
    kIfWeathered: surface?.kIfWeathered ?? undefined,
    wouldShowK: detectability?.shownK,
    neededK: detectability?.neededK,
    pixels: pixelsOverBarrel(evidence, context),
    inconclusive: causes,
    hot,
    criteria: publishedCriteria(evidence.referenceKind === 'air' ? undefined : overConductorK, overAmbientK),
  }
}
