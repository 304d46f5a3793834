import type { Context } from './context'
import { causesOfCircumstance, causesOfLoad } from './infrared-causes'
import { publishedCriteria } from './published-criteria'
import type { InfraredEvidence, InfraredNote } from './types'

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
  const inconclusive: string[] = [...causesOfLoad(evidence, context), ...causesOfCircumstance(evidence, context)]
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
