import type { Context } from './context'
import type { Fusion, InfraredBelief } from './fusion'
import type { GoverningInfrared, InfraredState } from './infrared-belief'
import type { InfraredNote, Reason, SideAssessment } from './types'

/** 1.645 standard deviations either way: nine times in ten. */
const NINE_IN_TEN = 1.6448536269514722

export interface InfraredFindings {
  context: Context
  byInfrared: GoverningInfrared | null
  pictures: InfraredState
  fusion: Fusion | undefined
  infrared: readonly InfraredNote[]
  sides: readonly SideAssessment[]
}

/** Which rule made the class where infrared governs. */
export function infraredRuleReason({ found, picture }: GoverningInfrared, { edges, policy }: Context): Reason {
  const rule = found.class === 'sound' ? 'watch' : found.class
  return {
    code: 'infrared-class-rule',
    values: {
      class: found.class, edge: edges[rule], chance: found.pOver[rule], limit: policy.pRules[rule], ratio: Math.exp(picture.measured.mean),
      capped: picture.windy && found.class === 'degraded', windMS: policy.infrared.windMS,
    },
    readingIds: picture.readingIds,
  }
}

/** What infrared says of the ratio, how it stands to resistance, and what would settle what it leaves open. */
export function infraredReasons(found: InfraredFindings): Reason[] {
  const { pictures, fusion } = found
  const { counts, against } = pictures
  if (!counts || !fusion) return []
  const reasons = [ratioReason(counts, found.infrared, found.context)]
  if (against) {
    reasons.push({
      code: 'infrared-flights-conflict',
      values: {
        ratio: Math.exp(counts.measured.mean), takenAtMs: counts.takenAtMs ?? null, otherRatio: Math.exp(against.measured.mean),
        otherAtMs: against.takenAtMs ?? null,
      },
      readingIds: [...counts.readingIds, ...against.readingIds],
    })
  }
  const comparison = comparisonReason(fusion, against !== null)
  if (comparison) reasons.push(comparison)
  if (fusion.conflict) reasons.push({ code: 'settle-infrared-conflict', values: {} })
  else if (found.sides.length < found.context.interfaces.count) reasons.push({ code: 'infrared-sees-mean', values: { measured: found.sides.length } })
  return reasons
}

function ratioReason(counts: InfraredBelief, notes: readonly InfraredNote[], { policy }: Context): Reason {
  const { mean, sd } = counts.measured
  const note = notes.find(({ readingId, k }) => k !== undefined && counts.readingIds.includes(readingId))
  return {
    code: 'infrared-ratio',
    values: {
      ratio: Math.exp(mean), lowRatio: Math.exp(mean - NINE_IN_TEN * sd), highRatio: Math.exp(mean + NINE_IN_TEN * sd),
      takenAtMs: counts.takenAtMs ?? null, currentA: note?.lineCurrentA ?? null, loadShare: note?.loadShare ?? null,
      windMS: note?.effectiveWindMS ?? null, emissivity: note?.surfaces?.barrel.emissivity ?? null, uEmissivity: policy.radiometry.uEmissivity,
    },
    readingIds: counts.readingIds,
  }
}

function comparisonReason({ sources, statistic, conflict, settled, limit, taken }: Fusion, flightsDisagree: boolean): Reason | null {
  const resistance = sources.find(({ source }) => source === 'resistance')
  if (statistic === undefined) return null
  const values = { meanRatio: resistance?.k ?? null, statistic, limit, taken }
  if (conflict && statistic > limit) return { code: resistance ? 'infrared-conflict' : 'infrared-under-one-side', values }
  if (settled) return { code: 'infrared-settled', values }
  if (flightsDisagree) return null
  return { code: taken === 'resistance' ? 'infrared-lowers-nothing' : 'infrared-agrees', values }
}
