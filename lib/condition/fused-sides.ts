import type { BelievedSides } from './believed-sides'
import type { Context } from './context'
import { carriedTo, compare, contradictsOneSide, meanOfSides, type FusedSource, type Fusion, type InfraredBelief, type SideBelief } from './fusion'
import { goodReadings } from './hold'
import { classByInfrared, type ByInfrared, type InfraredState } from './infrared-belief'
import { YEAR_MS } from './limits'
import type { SideMeasurement } from './measure'
import { aged, type Belief } from './posterior'
import { assessSide, measuredBelief, type Signs } from './side'
import type { SideAssessment, VisitSummary } from './types'

export interface FusedSides {
  sides: SideAssessment[]
  fusion: Fusion
  /** The splice by infrared alone, where resistance does not cover every interface. */
  byInfrared: ByInfrared | null
}

/**
 * Infrared beside the sides that resistance has. It is compared with their mean, which is what a barrel shows, and carried to each side by
 * how far that side measured from the mean. Where a side is missing nothing is assumed of it: infrared then speaks for the splice as a
 * whole, and the worse of both governs.
 */
export function fuseSides(
  believed: BelievedSides, state: InfraredState, signs: Signs, visits: readonly VisitSummary[], asOfMs: number, context: Context,
): FusedSides | null {
  const { counts } = state
  if (!counts) return null
  const { policy, interfaces } = context
  const { measurements, sides } = believed
  const infrared = infraredSource(counts)
  const limit = policy.conflict.statistic
  const contradicted = state.against !== null
  const beliefs = beliefsOf(measurements, (side) => aged(measuredBelief(side), yearsOf(side, asOfMs), policy.ageing))
  const mean = meanOf(beliefs)
  if (!mean || measurements.length < interfaces.count) {
    const statistic = mean ? contradictsOneSide(mean, counts.belief, policy) : null
    return {
      sides, byInfrared: classByInfrared(counts, signs, context),
      fusion: {
        sources: [infrared], ...(statistic === null ? {} : { statistic }), limit, conflict: contradicted || statistic !== null,
        taken: mean ? 'both' : 'infrared',
      },
    }
  }
  const { statistic, conflict, worse } = compare(mean, counts.belief, policy)
  const sources = [resistanceSource(measurements, mean), infrared]
  if (conflict && worse === 'infrared' && isSettled(counts, visits, signs, context)) {
    return { sides, byInfrared: null, fusion: { sources, statistic, limit, conflict: false, settled: true, taken: 'resistance' } }
  }
  if (conflict && worse === 'resistance') {
    return { sides, byInfrared: null, fusion: { sources, statistic, limit, conflict: true, taken: 'resistance' } }
  }
  const fused = measurements.map((side, i) => {
    const own = beliefs[i]?.belief ?? mean
    const carried = { item: carriedTo(own, mean, counts.belief), replaces: conflict, windy: counts.windy }
    return assessSide(side, yearsOf(side, asOfMs), signs, context, carried)
  })
  const moved = fused.some((side, i) => side.meanLnK !== sides[i]?.meanLnK)
  return {
    sides: fused, byInfrared: null,
    fusion: { sources, statistic, limit, conflict: conflict || contradicted, taken: conflict ? 'infrared' : moved ? 'both' : 'resistance' },
  }
}

/** What clears a class that is held settles a picture too: so many independent readings of every interface after it, each milder than it. */
function isSettled(counts: InfraredBelief, visits: readonly VisitSummary[], signs: Signs, context: Context): boolean {
  const { policy } = context
  const alone = classByInfrared(counts, signs, context).class
  return goodReadings(visits, alone, counts.takenAtMs, policy) >= policy.hold.independentReadings
}

const infraredSource = ({ measured, belief, takenAtMs, readingIds }: InfraredBelief): FusedSource => ({
  source: 'infrared', k: Math.exp(measured.mean), uLnK: measured.sd, agedK: Math.exp(belief.mean), agedULnK: belief.sd, takenAtMs, readingIds,
})

const yearsOf = ({ takenAtMs }: SideMeasurement, asOfMs: number): number =>
  takenAtMs === undefined ? 0 : Math.max(0, (asOfMs - takenAtMs) / YEAR_MS)

function beliefsOf(measurements: readonly SideMeasurement[], beliefOf: (side: SideMeasurement) => Belief): SideBelief[] {
  const [first] = measurements
  return measurements.map((side) => ({
    belief: beliefOf(side), uSharedLn: side.conductorUohm === first?.conductorUohm ? side.uConductorUohm / side.conductorUohm : 0,
  }))
}

function meanOf([a, b]: readonly SideBelief[]): Belief | null {
  if (!a) return null
  return b ? meanOfSides(a, b) : a.belief
}

function resistanceSource(measurements: readonly SideMeasurement[], today: Belief): FusedSource {
  const measured = meanOf(beliefsOf(measurements, measuredBelief)) ?? today
  const times = measurements.flatMap(({ takenAtMs }) => (takenAtMs === undefined ? [] : [takenAtMs]))
  return {
    source: 'resistance', k: Math.exp(measured.mean), uLnK: measured.sd, agedK: Math.exp(today.mean), agedULnK: today.sd,
    takenAtMs: times.length === measurements.length ? Math.min(...times) : undefined,
    readingIds: [...new Set(measurements.flatMap(({ readingIds }) => readingIds))],
  }
}
