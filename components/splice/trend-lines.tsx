import { trendAt } from '@/lib/condition'
import type { StoredTrend } from './assessment'
import css from './ratio-history.module.css'

const YEAR_MS = 365.25 * 86_400_000
/** A forecast reaches no further than what was watched, but a year and a half at least. */
const LEAST_AHEAD_MS = 1.5 * YEAR_MS
const STEPS = 32

/** The series that the sheet is about: the governing side, else the one that is growing to the highest ratio. */
export function leadingTrend(trends: readonly StoredTrend[], governing: string | undefined): StoredTrend | null {
  const last = ({ points }: StoredTrend): number => points.at(-1)?.k ?? 0
  const own = trends.find(({ series }) => series === governing)
  return own ?? [...trends].sort((a, b) => last(b) - last(a))[0] ?? null
}

/** How far ahead the plot looks, ms since 1970 UTC: to the next reading and the earliest passing of the next edge, within reason. */
export function aheadMs(lead: StoredTrend | null, firstMs: number, lastMs: number, dueMs: number | null): number {
  if (!lead) return lastMs
  const now = lead.points.at(-1)?.k ?? 0
  const next = lead.passings.find(({ k }) => k > now)
  const wanted = Math.max(lastMs, dueMs ?? lastMs, next?.earliestAtMs ?? lastMs)
  return Math.min(wanted, lastMs + Math.max(lastMs - firstMs, LEAST_AHEAD_MS))
}

interface Props {
  trends: readonly StoredTrend[]
  lead: StoredTrend | null
  toMs: number
  heightPx: number
  percent(atMs: number): number
  y(k: number): number
}

/** The line of each series, and of the leading one where a next reading would lie; cut off where the plot ends. */
export function TrendLines({ trends, lead, toMs, heightPx, percent, y }: Props) {
  return (
    <svg x="0" y="0" width="100%" height={heightPx} viewBox={`0 0 100 ${heightPx}`} preserveAspectRatio="none" overflow="hidden">
      {lead && <path d={bandPath(lead, toMs, percent, y)} className={css.band} />}
      {trends.map((trend) => (
        <path key={trend.series} d={linePath(sampled(trend, toMs), (at) => at.k, percent, y)} className={trend === lead ? css.trend : css.trendOther} />
      ))}
    </svg>
  )
}

interface Sample { atMs: number; k: number; lowK: number; highK: number }

function sampled(trend: StoredTrend, toMs: number): Sample[] {
  const { originMs } = trend
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const atMs = originMs + ((toMs - originMs) * i) / STEPS
    return { atMs, ...trendAt(trend, atMs) }
  })
}

type Axis = (value: number) => number

const linePath = (samples: readonly Sample[], of: (at: Sample) => number, percent: Axis, y: Axis): string =>
  samples.map((at, i) => `${i === 0 ? 'M' : 'L'}${percent(at.atMs).toFixed(2)} ${y(of(at)).toFixed(1)}`).join('')

function bandPath(trend: StoredTrend, toMs: number, percent: Axis, y: Axis): string {
  const samples = sampled(trend, toMs)
  return `${linePath(samples, (at) => at.highK, percent, y)}${linePath([...samples].reverse(), (at) => at.lowK, percent, y).replace('M', 'L')}Z`
}
