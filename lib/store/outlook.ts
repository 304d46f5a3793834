import type { Assessment, Policy, SpliceFacts } from '@/lib/condition'
import { isWithheld } from '@/lib/condition/loading/carried-k'
import { whyNoLimit } from '@/lib/condition/no-limit'
import { LIMIT_CAUTION, NO_LIMIT_WHILE_HELD } from '@/lib/condition/words'
import type { CarryingLimit, Outlook, TrendJson } from '@/lib/contract/outlook'

const instantOf = (ms: number): string => new Date(ms).toISOString()
const maybeInstant = (ms: number | null | undefined): string | null => (ms === null || ms === undefined ? null : instantOf(ms))

/**
 * An assessment's limit, trends and sources as the API has them. One of an older engine has none of them yet.
 * @param shown whether the class is held, and whether a current may be given for the splice at all (`CarriedK.figure`): one drawn from what a held
 * finding is not part of is given nowhere
 */
export function outlookOf(
  assessment: Assessment, facts: Pick<SpliceFacts, 'kind' | 'conductorCode' | 'fittingType'>, shown: { held: boolean; figure: boolean }, policy: Policy,
): Outlook {
  const { fusion, trends = [], nextReadingDueMs } = assessment
  const withheld = isWithheld(shown)
  const limit = withheld ? undefined : assessment.limit
  return {
    fusion: fusion === undefined ? null : {
      sources: fusion.sources.map(({ source, k, uLnK, agedK, agedULnK, takenAtMs, readingIds }) => ({
        source, k, u_ln_k: uLnK, aged_k: agedK, aged_u_ln_k: agedULnK, taken_at: maybeInstant(takenAtMs), reading_ids: readingIds,
      })),
      statistic: fusion.statistic ?? null, limit: fusion.limit, conflict: fusion.conflict, settled: fusion.settled === true, taken: fusion.taken,
      believed: fusion.believed ? { k: Math.exp(fusion.believed.meanLnK), u_ln_k: fusion.believed.sdLnK } : null,
    },
    trends: trends.map(trendOf), next_reading_due_at: maybeInstant(nextReadingDueMs), limit: limit === undefined ? null : limitOf(limit, policy), in_hotter_air: [],
    no_limit: withheld ? NO_LIMIT_WHILE_HELD : whyNoLimit(assessment, facts), caution: LIMIT_CAUTION,
  }
}

const trendOf = ({ series, method, growthPerYear, uGrowthPerYear, growing, accelerating, points, passings }: NonNullable<Assessment['trends']>[number]): TrendJson => ({
  series, method, growth_per_year: growthPerYear, u_growth_per_year: uGrowthPerYear, growing, accelerating,
  points: points.map(({ takenAtMs, k, uLnK, readingIds }) => ({ taken_at: instantOf(takenAtMs), k, u_ln_k: uLnK, reading_ids: readingIds })),
  passings: passings.map(({ class: passed, k, medianAtMs, earliestAtMs }) => ({
    class: passed, k, median_at: dayWithinReach(medianAtMs), earliest_at: dayWithinReach(earliestAtMs),
  })),
})

/** A splice that hardly grows passes an edge in a year that no calendar writes. */
const LAST_MS = Date.UTC(9999, 11, 31)
const dayWithinReach = (ms: number | null): string | null => (ms === null || ms > LAST_MS ? null : instantOf(ms))

const FLOW = { presentA: 'present', expectedPeakA: 'expected_peak', postContingencyA: 'post_contingency' } as const

const limitOf = (limit: NonNullable<Assessment['limit']>, policy: Policy): CarryingLimit => ({
  line_a: limit.lineA, mva: limit.mva, limited_by: limit.limitedBy, splice_line_a: limit.spliceLineA, splice_subconductor_a: limit.spliceSubconductorA,
  section_a: limit.sectionA, section_from: limit.sectionFrom, splice_c: limit.spliceC, upper_k: limit.k, upper_share: policy.limit.upperShare,
  weather: {
    ambient_c: limit.weather.ambientC, wind_m_s: limit.weather.windMS, wind_angle_deg: limit.weather.windAngleDeg, sun_w_m2: limit.weather.sunWPerM2,
    elevation_m: limit.weather.elevationM,
  },
  held_ratio: limit.heldRatio ?? null,
  flows: limit.flows.map(({ flow, currentA, overA }) => ({ flow: FLOW[flow], current_a: currentA, over_a: overA })),
})
