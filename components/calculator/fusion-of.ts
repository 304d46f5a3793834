import type { Assessment } from '@/lib/condition'
import type { Outlook } from '@/lib/contract/outlook'

/** What infrared says, in the form in which the axis of ratios takes it from the API. */
export function fusionOf({ fusion }: Assessment): Outlook['fusion'] {
  if (!fusion) return null
  return {
    sources: fusion.sources.map(({ source, k, uLnK, agedK, agedULnK, takenAtMs, readingIds }) => ({
      source, k, u_ln_k: uLnK, aged_k: agedK, aged_u_ln_k: agedULnK,
      taken_at: takenAtMs === undefined ? null : new Date(takenAtMs).toISOString(), reading_ids: readingIds,
    })),
    statistic: fusion.statistic ?? null, limit: fusion.limit, conflict: fusion.conflict, settled: fusion.settled === true, taken: fusion.taken,
    believed: fusion.believed ? { k: Math.exp(fusion.believed.meanLnK), u_ln_k: fusion.believed.sdLnK } : null,
  }
}
