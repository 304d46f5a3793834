import { scaleLog, scaleTime } from 'd3-scale'
import { formatDate } from '@/lib/units/time'
import type { StoredAssessment } from './assessment'
import type { RatioPoint } from './reading-figures'
import css from './ratio-history.module.css'

const HEIGHT = 154
const TOP = 16
const BOTTOM = 130
/** Two edge labels nearer than this would run into each other. */
const LABEL_PX = 13

/** Is it getting worse? Side over line as read, survey by survey, against the edges. Its twin is the table of readings. */
export function RatioHistory({ points, edges, timeZone }: { points: RatioPoint[]; edges: StoredAssessment['edges']; timeZone: string }) {
  const first = points[0]
  const last = points.at(-1)
  if (!first || !last || first.atMs === last.atMs) return null
  const ofA = points.filter((p) => p.side === 'A')
  const ofB = points.filter((p) => p.side === 'B')
  const ratios = points.map((p) => p.ratio)
  const x = scaleTime().domain([first.atMs, last.atMs]).range([3, 88])
  const y = scaleLog()
    .domain([Math.min(edges.watch * 0.6, ...ratios) * 0.92, Math.max(edges.degraded, ...ratios) * 1.1])
    .range([BOTTOM, TOP])
  const [, ceiling] = y.domain()
  const shownEdges = [edges.watch, edges.degraded, edges.urgent, edges.critical].filter((k) => k < (ceiling ?? 0))
  return (
    <figure className={css.plot}>
      <h3>Ratio as read, survey by survey</h3>
      <svg
        width="100%"
        height={HEIGHT}
        role="img"
        className={css.svg}
        aria-label={points.map((p) => `${formatDate(p.atMs, timeZone)} side ${p.side} ${p.ratio.toFixed(2)}`).join('; ')}>
        {shownEdges.map((k) => (
          <g key={k}>
            <line x1="0" x2="92%" y1={y(k)} y2={y(k)} className={css.edge} />
            {shownEdges.every((other) => other <= k || y(k) - y(other) >= LABEL_PX) && (
              <text x="93%" y={y(k) + 4}>
                {k.toFixed(2)}
              </text>
            )}
          </g>
        ))}
        <Side side="A" points={ofA} x={x} y={y} above={lastOf(ofA) >= lastOf(ofB)} />
        <Side side="B" points={ofB} x={x} y={y} above={lastOf(ofB) > lastOf(ofA)} />
        <text x="0" y={HEIGHT - 2}>
          {formatDate(first.atMs, timeZone)}
        </text>
        <text x="92%" y={HEIGHT - 2} textAnchor="end">
          {formatDate(last.atMs, timeZone)}
        </text>
      </svg>
    </figure>
  )
}

const lastOf = (points: RatioPoint[]): number => points.at(-1)?.ratio ?? 0

interface SideProps {
  side: 'A' | 'B'
  points: RatioPoint[]
  x(at: number): number
  y(k: number): number
  /** The higher side is named above its last point, the other below. */
  above: boolean
}

function Side({ side, points, x, y, above }: SideProps) {
  const end = points.at(-1)
  return (
    <g>
      {points.slice(1).map((p, i) => {
        const from = points[i]
        return (
          from && (
            <line
              key={p.readingId}
              x1={`${x(from.atMs)}%`}
              y1={y(from.ratio)}
              x2={`${x(p.atMs)}%`}
              y2={y(p.ratio)}
              className={css.line}
            />
          )
        )
      })}
      {points.map((p) => (
        <circle key={p.readingId} cx={`${x(p.atMs)}%`} cy={y(p.ratio)} r="3.5" className={side === 'A' ? css.sideA : css.sideB} />
      ))}
      {end && (
        <text x={`${x(end.atMs)}%`} y={y(end.ratio) + (above ? -8 : 15)} textAnchor="end" className={css.name}>
          {side}
        </text>
      )}
    </g>
  )
}
