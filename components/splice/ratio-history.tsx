import { scaleLog } from 'd3-scale'
import { trendAt } from '@/lib/condition'
import type { ReadingJson } from '@/lib/contract/contract'
import { formatEdge, formatRatio } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import type { StoredAssessment, StoredTrend } from './assessment'
import { aheadMs, leadingTrend, TrendLines } from './trend-lines'
import { apart, joined, repairsOf, timeScale, trendPoints, type TrendPoint } from './trend'
import css from './ratio-history.module.css'

const HEIGHT = 172
const TOP = 18
const BOTTOM = 148
/** Two figures nearer than this would run into each other. */
const LABEL_PX = 14
/** A and B of one visit stand beside each other, so that both ranges show. */
const SIDE_PX = { A: -3, B: 3 }
const CLASSES = ['sound', 'watch', 'degraded', 'urgent', 'critical'] as const

interface Props {
  readings: readonly ReadingJson[]
  assessment: StoredAssessment
  /** When it is to be read again; null where nothing dated was read. */
  dueMs: number | null
  timeZone: string
}

/**
 * Is a side getting worse? Each side visit by visit against the edges, with the line of its growth and where a next reading would lie. Its
 * twin is the table of readings.
 */
export function RatioHistory({ readings, assessment, dueMs, timeZone }: Props) {
  const points = trendPoints(readings, assessment.visits)
  const pictures = assessment.trends.find(({ series }) => series === 'infrared')?.points ?? []
  const times = [...points.map(({ atMs }) => atMs), ...pictures.map(({ takenAtMs }) => takenAtMs)].sort((a, b) => a - b)
  const [firstMs, lastMs] = [times[0], times.at(-1)]
  if (firstMs === undefined || lastMs === undefined || firstMs === lastMs) return null
  const repairs = repairsOf(readings).filter((atMs) => atMs > firstMs)
  const lead = leadingTrend(assessment.trends, assessment.governingSide)
  const toMs = aheadMs(lead, firstMs, lastMs, dueMs)
  const due = lead && dueMs !== null && dueMs > firstMs && dueMs <= toMs ? dueMs : null
  const x = timeScale(firstMs, toMs, times, timeZone)
  const edges = [assessment.edges.watch, assessment.edges.degraded, assessment.edges.urgent, assessment.edges.critical]
  const y = ratioScale(points, edges, lead ? [...pictures.map(({ k }) => k), trendAt(lead, toMs).k] : [])
  const [floor = 0, ceiling = 0] = y.domain()
  const shown = edges.filter((k) => k < ceiling)
  const peak = lead ? null : peakOf(points)
  const ends = lead ? [] : apart((['A', 'B'] as const).flatMap((side) => {
    const end = points.findLast((p) => p.side === side)
    return end ? [{ side, ratio: end.ratio, yPx: y(end.ratio) }] : []
  }), LABEL_PX)
  return (
    <figure className={css.plot}>
      <h3>
        Is a side getting worse? <small>Ratio to the conductor, visit by visit</small>
      </h3>
      <div className={css.body} style={{ height: HEIGHT }}>
        <div className={css.figures} aria-hidden="true">
          {shown.filter((k) => shown.every((other) => other <= k || y(k) - y(other) >= LABEL_PX)).map((k) => (
            <span key={k} style={{ top: y(k) }}>{formatEdge(k)}</span>
          ))}
        </div>
        <svg width="100%" height={HEIGHT} role="img" className={css.svg} aria-label={sentence(points, pictures, timeZone)}>
          {CLASSES.map((name, i) => {
            const from = Math.min(Math.max(edges[i - 1] ?? floor, floor), ceiling)
            const to = Math.min(edges[i] ?? ceiling, ceiling)
            return to > from && <rect key={name} width="4" y={y(to)} height={y(from) - y(to)} style={{ fill: `var(--class-${name})` }} />
          })}
          {shown.map((k) => <line key={k} x1="4" x2="100%" y1={y(k)} y2={y(k)} className={css.edge} />)}
          <line x1="4" x2="100%" y1={BOTTOM} y2={BOTTOM} className={css.base} />
          {x.ticks.map(({ atPercent, text }) => (
            <g key={text}>
              <line x1={`${atPercent}%`} x2={`${atPercent}%`} y1={BOTTOM} y2={BOTTOM + 5} className={css.base} />
              <text x={`${atPercent}%`} y={BOTTOM + 18} textAnchor={atPercent < 15 ? 'start' : atPercent > 85 ? 'end' : 'middle'}>{text}</text>
            </g>
          ))}
          {lead && <TrendLines trends={assessment.trends} lead={lead} toMs={toMs} heightPx={BOTTOM} percent={x.percent} y={y} />}
          {due !== null && (
            <g>
              <line x1={`${x.percent(due)}%`} x2={`${x.percent(due)}%`} y1={TOP - 8} y2={BOTTOM} className={css.due} />
              <svg x={`${x.percent(due)}%`} overflow="visible">
                <text x="-4" y={TOP - 8} textAnchor="end">read again</text>
              </svg>
            </g>
          )}
          {repairs.map((atMs) => (
            <g key={atMs}>
              <line x1={`${x.percent(atMs)}%`} x2={`${x.percent(atMs)}%`} y1={TOP - 14} y2={BOTTOM} className={css.repair} />
              <svg x={`${x.percent(atMs)}%`} overflow="visible">
                <text x="-6" y={TOP - 6} textAnchor="end">repaired</text>
              </svg>
            </g>
          ))}
          {joined(points, repairs).filter(([, to]) => !fitted(assessment.trends, to)).map(([from, to]) => (
            <line
              key={`${to.side}${to.atMs}${from.atMs}`}
              x1={`${x.percent(from.atMs)}%`} y1={y(from.ratio)} x2={`${x.percent(to.atMs)}%`} y2={y(to.ratio)} className={css.line}
            />
          ))}
          {points.map((p, i) => <Point key={i} of={p} atPercent={x.percent(p.atMs)} y={y} name={nameOf(p, points, peak, lead !== null)} below={lead !== null && isLower(p, points)} />)}
          {pictures.map(({ takenAtMs, k }) => (
            <svg key={takenAtMs} x={`${x.percent(takenAtMs)}%`} overflow="visible">
              <path d={`M0 ${y(k) - 5}l5 5l-5 5l-5 -5Z`} className={css.picture} />
            </svg>
          ))}
        </svg>
        <div className={css.ends} aria-hidden="true">
          {ends.map(({ side, ratio, yPx }) => (
            <span key={side} style={{ top: yPx }}>
              <b>{side}</b> {formatRatio(ratio)}
            </span>
          ))}
        </div>
      </div>
      <figcaption className={css.foot}>{footOf(points, pictures.length > 0, lead)}</figcaption>
    </figure>
  )
}

/** The line through a side's readings stands for joining them. */
const fitted = (trends: readonly StoredTrend[], { side, atMs }: TrendPoint): boolean =>
  trends.some(({ series, points }) => series === side && points.some(({ takenAtMs }) => takenAtMs === atMs))

function peakOf(points: readonly TrendPoint[]): TrendPoint | null {
  const highest = points.reduce((a, b) => (b.ratio > a.ratio ? b : a))
  return points.findLast((p) => p.side === highest.side) === highest ? null : highest
}

/** With a forecast the last reading of each side carries its name, since what stands at the edge is not read yet. */
function nameOf(p: TrendPoint, points: readonly TrendPoint[], peak: TrendPoint | null, forecast: boolean): string | null {
  if (!forecast) return p === peak ? formatRatio(p.ratio) : null
  return points.findLast(({ side }) => side === p.side) === p ? `${p.side} ${formatRatio(p.ratio)}` : null
}

/** Whether the other side read more at last: its name then stands above its bar, and this one's below. */
function isLower(p: TrendPoint, points: readonly TrendPoint[]): boolean {
  const other = points.findLast(({ side }) => side !== p.side)
  return other !== undefined && other.ratio > p.ratio
}

function ratioScale(points: readonly TrendPoint[], edges: readonly number[], others: readonly number[]) {
  const values = [...points.flatMap((p) => [p.ratio, ...(p.range ?? [])]), ...others]
  const [watch = 1, degraded = 1.3] = edges
  return scaleLog().domain([Math.min(watch * 0.85, ...values) * 0.94, Math.max(degraded, ...values) * 1.08]).range([BOTTOM, TOP])
}

function Point({ of, atPercent, y, name, below }: { of: TrendPoint; atPercent: number; y(k: number): number; name: string | null; below: boolean }) {
  const x = SIDE_PX[of.side]
  const left = atPercent > 50
  const [low, high] = of.range ?? [of.ratio, of.ratio]
  return (
    <svg x={`${atPercent}%`} overflow="visible">
      {of.range && <line x1={x} x2={x} y1={y(of.range[0])} y2={y(of.range[1])} className={css.range} />}
      <circle cx={x} cy={y(of.ratio)} r="3.5" className={of.side === 'A' ? css.sideA : css.sideB} />
      {name !== null && <text x={x + (left ? -7 : 7)} y={below ? y(low) + 14 : y(high) - 6} textAnchor={left ? 'end' : 'start'}>{name}</text>}
    </svg>
  )
}

const sentence = (points: readonly TrendPoint[], pictures: StoredTrend['points'], timeZone: string): string => [
  ...points.map((p) => `${formatDate(p.atMs, timeZone)} side ${p.side} ${formatRatio(p.ratio)}`),
  ...pictures.map((p) => `${formatDate(p.takenAtMs, timeZone)} infrared ${formatRatio(p.k)}`),
].join('; ')

function footOf(points: readonly TrendPoint[], pictures: boolean, lead: StoredTrend | null): string {
  return [
    lead ? `Line: growth of ${lead.series === 'infrared' ? 'the splice by infrared' : `side ${lead.series}`}; a next reading is to be expected within the band.` : '',
    pictures ? 'Diamond: infrared, the mean of the splice.' : '',
    points.some((p) => p.range) ? 'The true ratio lies within the bar nine times in ten, by the instrument’s limit of error.' : '',
    points.some((p) => p.range === null) ? 'Without a bar: as read, and no longer counted.' : '',
    points.some((p) => !p.declared) ? 'Not joined where nobody noted which side is which.' : '',
  ].filter(Boolean).join(' ')
}
