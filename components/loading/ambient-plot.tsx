'use client'
import { scaleLinear } from 'd3-scale'
import { useUnitSystem } from '@/components/ui/preferences'
import type { Weather } from '@/lib/condition/heat/weather'
import { limitAgainstAmbient } from '@/lib/condition/loading/line-limit'
import type { Policy } from '@/lib/condition/policy'
import { formatAllowed, formatCurrent } from '@/lib/units/format'
import { labelGroups, temperatureTicks } from './plot-scale'
import type { Limiting } from './reckon'
import { useWidth } from './use-width'
import { degreesText } from './words'
import css from './line-plot.module.css'

const HEIGHT = 190
const LEFT = 48
const RIGHT = 16
const TOP = 16
const BOTTOM = HEIGHT - 24
const LABEL_PX = 17
const RANGE = { fromC: -20, toC: 45 }

/** How much does the air cost? What the limiting splice allows against the air, the rest of the weather as it is. */
export function AmbientPlot({ found, weather, policy }: { found: Limiting; weather: Weather; policy: Policy }) {
  const [system] = useUnitSystem()
  const [box, widthPx] = useWidth<HTMLDivElement>()
  const { joint, section } = found
  const { of, facts } = section.section
  const reached = { fromC: Math.min(RANGE.fromC, weather.ambientC), toC: Math.max(RANGE.toC, weather.ambientC) }
  const curve = limitAgainstAmbient(joint.heated, facts, of.voltage_kv, weather, reached.fromC, reached.toC, policy)
  if (!curve.ok) return null
  const sectionA = found.limit.sectionA
  const topA = Math.max(sectionA, section.currentA ?? 0) * 1.12
  const x = scaleLinear().domain([reached.fromC, reached.toC]).range([LEFT, Math.max(LEFT + 1, widthPx - RIGHT)])
  const y = scaleLinear().domain([0, topA]).nice(4).range([BOTTOM, TOP]).clamp(true)
  const lineOf = (amperes: (i: number) => number) => curve.value.map(({ ambientC }, i) => `${i === 0 ? 'M' : 'L'}${x(ambientC).toFixed(1)} ${y(amperes(i)).toFixed(1)}`).join('')
  const here = found.limit.lineA
  const lines = labelGroups([
    { key: 'section', yPx: y(sectionA), text: `section ${formatAllowed(sectionA)}` },
    ...section.currentA === null || section.currentA > topA ? [] : [{ key: 'flow', yPx: y(section.currentA), text: 'current taken' }],
  ], LABEL_PX)
  return (
    <figure className={css.plot}>
      <h3>
        What would it allow in other air? <small>Splice {joint.of.splice}, wind and sun as they are, never over its section</small>
      </h3>
      <div ref={box} className={css.box}>
        <svg
          className={css.svg}
          viewBox={`0 0 ${widthPx} ${HEIGHT}`}
          role="img"
          aria-label={curve.value.filter((_, i) => i % 4 === 0).map(({ ambientC, limit }) => `air ${degreesText(ambientC, system)} ${formatAllowed(limit.lineA)}`).join('; ')}>
          {y.ticks(4).map((amperes) => (
            <g key={amperes}>
              <line x1={LEFT} x2={widthPx - RIGHT} y1={y(amperes)} y2={y(amperes)} className={css.grid} />
              <text x={LEFT - 6} y={y(amperes) + 4} textAnchor="end">{formatCurrent(amperes)}</text>
            </g>
          ))}
          {temperatureTicks(reached, system).map(({ c, text }) => (
            <text key={text} x={x(c)} y={BOTTOM + 17} textAnchor="middle">{text}</text>
          ))}
          <text x={widthPx} y={BOTTOM + 17} textAnchor="end" className={css.unit}>{system === 'us' ? '°F' : '°C'}</text>
          <line x1={LEFT} x2={widthPx - RIGHT} y1={BOTTOM} y2={BOTTOM} className={css.base} />
          <path d={lineOf((i) => curve.value[i]?.limit.lineA ?? 0)} className={css.curve} />
          {lines.flatMap(({ labels }) => labels).map(({ key, yPx }) => <line key={key} x1={LEFT} x2={widthPx - RIGHT} y1={yPx} y2={yPx} className={key === 'flow' ? css.flow : css.most} />)}
          {lines.map(({ yPx, labels }) => <text key={labels[0]?.key} x={LEFT + 4} y={yPx - 5} className={css.lineText}>{labels.map(({ text }) => text).join(', ')}</text>)}
          <circle cx={x(weather.ambientC)} cy={y(here)} r="5" className={css.here} />
          <text x={x(weather.ambientC)} y={y(here) + (y(here) > BOTTOM - 34 ? -10 : 18)} textAnchor={x(weather.ambientC) > widthPx / 2 ? 'end' : 'start'} className={css.hereText}>
            {formatAllowed(here)}
          </text>
        </svg>
      </div>
    </figure>
  )
}
