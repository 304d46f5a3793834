import { rankOf } from './classify'
import type { Context } from './context'
import type { InfraredBelief } from './fusion'
import { sideOfSession, type MeasuredSession } from './history'
import type { Side } from './interfaces'
import type { SideMeasurement } from './measure'
import type { ConditionClass, SideAssessment } from './types'
import { nextReadingDueMs } from './trend/next-reading'
import { whyNoTrend } from './trend/no-trend'
import { trendOf, type Trend, type TrendPoint, type TrendSeries } from './trend/trend'

/**
 * Growth of each side since the last repair, and of the splice as infrared sees it; never mixed.
 * @param sessions newest first
 * @param flights newest first
 */
export function trendsOf(sessions: readonly MeasuredSession[], flights: readonly InfraredBelief[], context: Context): Trend[] | undefined {
  if (sessions.length < 2 && flights.length < 2) return undefined
  const trends: Trend[] = []
  const add = (series: TrendSeries, points: TrendPoint[]): void => {
    const trend = whyNoTrend(points, context.policy) === null ? trendOf(series, points, context.edges, context.policy) : null
    if (trend) trends.push(trend)
  }
  for (const { series, points } of seriesOf(sessions, flights, context)) add(series, points)
  return trends.length === 0 ? undefined : trends
}

/** A series of which no line is drawn, and why. */
export interface NoTrend {
  series: TrendSeries
  why: 'contradicted' | 'too-short'
  points: TrendPoint[]
}

/** Series of two readings or more that tell no growth. */
export function noTrendsOf(sessions: readonly MeasuredSession[], flights: readonly InfraredBelief[], context: Context): NoTrend[] {
  if (sessions.length < 2 && flights.length < 2) return []
  return seriesOf(sessions, flights, context).flatMap(({ series, points }): NoTrend[] => {
    const why = whyNoTrend(points, context.policy)
    return why === null ? [] : [{ series, why, points }]
  })
}

const seriesOf = (sessions: readonly MeasuredSession[], flights: readonly InfraredBelief[], context: Context): { series: TrendSeries; points: TrendPoint[] }[] => [
  { series: 'A', points: pointsOfSide('A', sessions, context) }, { series: 'B', points: pointsOfSide('B', sessions, context) },
  { series: 'infrared', points: pointsOfFlights(flights) },
]

/** Only where somebody said which side is which, and back to where the electrodes sat elsewhere: a new position reads another ratio. */
function pointsOfSide(name: Side, sessions: readonly MeasuredSession[], context: Context): TrendPoint[] {
  const points: TrendPoint[] = []
  let newest: SideMeasurement | null = null
  for (const session of sessions) {
    const side = sideOfSession(session, name, context)?.side
    if (!side || side.takenAtMs === undefined || (!side.sidesDeclared && context.interfaces.count > 1)) continue
    newest ??= side
    if (moved(newest.electrodeSpanM, side.electrodeSpanM, context) || moved(newest.barrelElectrodeM, side.barrelElectrodeM, context)) break
    points.push({ takenAtMs: side.takenAtMs, k: side.ratio, uLnK: side.uLnK, readingIds: side.readingIds })
  }
  return points.reverse()
}

const moved = (a: number | undefined, b: number | undefined, { policy }: Context): boolean =>
  a !== undefined && b !== undefined && Math.abs(a - b) > policy.asymmetry.positionM

function pointsOfFlights(flights: readonly InfraredBelief[]): TrendPoint[] {
  const points: TrendPoint[] = []
  for (const { takenAtMs, measured, readingIds } of flights) {
    if (takenAtMs !== undefined) points.push({ takenAtMs, k: Math.exp(measured.mean), uLnK: measured.sd, readingIds })
  }
  return points.reverse()
}

/** What the next reading is reckoned from. */
export interface LastRead {
  condition: ConditionClass
  sides: readonly SideAssessment[]
  /** Set where the class rests on infrared, alone or against resistance. */
  picture: InfraredBelief | null
  trends: readonly Trend[] | undefined
}

/** The soonest day on which one of the series is due; absent where nothing dated gave a ratio. */
export function dueMs({ condition, sides, picture, trends }: LastRead, { edges, policy }: Context): number | undefined {
  // Of what is urgent or critical the hours to its confirmation and each peak of load say when it is looked at; a day beside them would be read as leave.
  if (condition === 'unknown' || rankOf(condition) >= rankOf('urgent')) return undefined
  let due = Infinity
  for (const { side, class: own, takenAtMs, ratio, uRatio } of sides) {
    if (takenAtMs === undefined) continue
    const last = { class: own, takenAtMs, k: ratio, uLnK: uRatio / ratio, mostYears: policy.resurveyYears[condition] }
    due = Math.min(due, nextReadingDueMs(last, trendFor(side, trends), edges, policy))
  }
  if (picture?.takenAtMs !== undefined) {
    const last = {
      class: condition, takenAtMs: picture.takenAtMs, k: Math.exp(picture.measured.mean), uLnK: picture.measured.sd,
      mostYears: condition === 'sound' ? policy.resurveyYears.soundByInfrared : policy.resurveyYears[condition],
    }
    due = Math.min(due, nextReadingDueMs(last, trendFor('infrared', trends), edges, policy))
  }
  return due === Infinity ? undefined : due
}

const trendFor = (series: TrendSeries, trends: readonly Trend[] | undefined): Trend | null => trends?.find((trend) => trend.series === series) ?? null
