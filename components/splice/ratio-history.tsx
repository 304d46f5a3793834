import { scaleLog } from 'd3-scale'
import type { ReadingJson } from '@/lib/contract/contract'
import { formatEdge } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import type { StoredAssessment } from './assessment'
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
  timeZone: string
}

/** Is a side getting worse? Each side visit by visit against the edges. Its twin is the table of readings. */
export function RatioHistory({ readings, assessment, timeZone }: Props) {
  const points = trendPoints(readings, assessment.visits)
  const first = points[0]
  const last = points.at(-1)
  if (!first || !last || first.atMs === last.atMs) return null
  const repairs = repairsOf(readings).filter((atMs) => atMs > first.atMs)
  const x = timeScale(first.atMs, last.atMs)
  const edges = [assessment.edges.watch, assessment.edges.degraded, assessment.edges.urgent, assessment.edges.critical]
  const y = ratioScale(points, edges)
  const [floor = 0, ceiling = 0] = y.domain()
  const shown = edges.filter((k) => k < ceiling)
  const highest = points.reduce((a, b) => (b.ratio > a.ratio ? b : a))
  const peak = points.findLast((p) => p.side === highest.side) === highest ? null : highest
  const ends = apart((['A', 'B'] as const).flatMap((side) => {
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
        <svg width="100%" height={HEIGHT} role="img" className={css.svg} aria-label={sentence(points, timeZone)}>
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
              <text x={`${atPercent}%`} y={BOTTOM + 18} textAnchor="middle">{text}</text>
            </g>
          ))}
          {repairs.map((atMs) => (
            <g key={atMs}>
              <line x1={`${x.percent(atMs)}%`} x2={`${x.percent(atMs)}%`} y1={TOP - 14} y2={BOTTOM} className={css.repair} />
              <svg x={`${x.percent(atMs)}%`} overflow="visible">
                <text x="-6" y={TOP - 6} textAnchor="end">repaired</text>
              </svg>
            </g>
          ))}
          {joined(points, repairs).map(([from, to]) => (
            <line
              key={`${to.side}${to.atMs}${from.atMs}`}
              x1={`${x.percent(from.atMs)}%`} y1={y(from.ratio)} x2={`${x.percent(to.atMs)}%`} y2={y(to.ratio)} className={css.line}
            />
          ))}
          {points.map((p, i) => <Point key={i} of={p} atPercent={x.percent(p.atMs)} y={y} named={p === peak} />)}
        </svg>
        <div className={css.ends} aria-hidden="true">
          {ends.map(({ side, ratio, yPx }) => (
            <span key={side} style={{ top: yPx }}>
              <b>{side}</b> {ratio.toFixed(2)}
            </span>
          ))}
        </div>
      </div>
      <figcaption className={css.foot}>{footOf(points)}</figcaption>
    </figure>
  )
}

function ratioScale(points: readonly TrendPoint[], edges: readonly number[]) {
  const values = points.flatMap((p) => [p.ratio, ...(p.range ?? [])])
  const [watch = 1, degraded = 1.3] = edges
  return scaleLog().domain([Math.min(watch * 0.6, ...values) * 0.94, Math.max(degraded, ...values) * 1.08]).range([BOTTOM, TOP])
}

function Point({ of, atPercent, y, named }: { of: TrendPoint; atPercent: number; y(k: number): number; named: boolean }) {
  const x = SIDE_PX[of.side]
  const left = atPercent > 50
  return (
    <svg x={`${atPercent}%`} overflow="visible">
      {of.range && <line x1={x} x2={x} y1={y(of.range[0])} y2={y(of.range[1])} className={css.range} />}
      <circle cx={x} cy={y(of.ratio)} r="3.5" className={of.side === 'A' ? css.sideA : css.sideB} />
      {named && <text x={x + (left ? -7 : 7)} y={y(of.ratio) - 6} textAnchor={left ? 'end' : 'start'}>{of.ratio.toFixed(2)}</text>}
    </svg>
  )
}

const sentence = (points: readonly TrendPoint[], timeZone: string): string =>
  points.map((p) => `${formatDate(p.atMs, timeZone)} side ${p.side} ${p.ratio.toFixed(2)}`).join('; ')

function footOf(points: readonly TrendPoint[]): string {
  return [
    points.some((p) => p.range) ? 'The true ratio lies within the bar nine times in ten, by the instrument’s limit of error.' : '',
    points.some((p) => p.range === null) ? 'Without a bar: as read, and no longer counted.' : '',
    points.some((p) => !p.declared) ? 'Not joined where nobody noted which side is which.' : '',
  ].filter(Boolean).join(' ')
}
