import '@/components/map/class-colours.css'
import { scaleLog } from 'd3-scale'
import { formatEdge } from '@/lib/units/format'
import type { PolicyValues } from './policy-draft'
import css from './policy.module.css'

const CLASSES = ['sound', 'watch', 'degraded', 'urgent', 'critical'] as const

/** The edges on the ratio's axis, logarithmic from 0.4 to 6, as the sheets of splices draw them. */
export function EdgeStrip({ edges }: { edges: PolicyValues['edges'] }) {
  const scale = scaleLog().domain([0.4, 6]).range([0, 100]).clamp(true)
  const bounds = [0.4, edges.watch, edges.degraded, edges.urgent, edges.critical, 6]
  const edge = (n: number): string => formatEdge(bounds[n] ?? 0)
  const words = CLASSES.map(
    (c, n) => `${c} ${n === 0 ? `to ${edge(1)}` : n === 4 ? `over ${edge(4)}` : `${edge(n)} to ${edge(n + 1)}`}`,
  ).join(', ')
  return (
    <figure className={css.strip} role="img" aria-label={`Classes by ratio: ${words}`}>
      <div>
        {CLASSES.map((c, n) => {
          const from = scale(bounds[n] ?? 0.4)
          return (
            <i
              key={c}
              style={{ left: `${from}%`, width: `${Math.max(0, scale(bounds[n + 1] ?? 6) - from)}%`, background: `var(--class-${c})` }}
            />
          )
        })}
      </div>
      {CLASSES.map((c, n) => {
        const from = scale(bounds[n] ?? 0.4)
        return (
          <span key={c} style={{ left: `${from}%`, maxWidth: `${Math.max(0, scale(bounds[n + 1] ?? 6) - from)}%` }}>
            {n > 0 && <b>{edge(n)}</b>} <small>{c}</small>
          </span>
        )
      })}
    </figure>
  )
}
