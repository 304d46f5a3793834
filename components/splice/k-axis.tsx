import { formatRatio } from '@/lib/units/format'
import { believedInterval, type StoredAssessment, type StoredSide } from './assessment'
import { kScale, type Zone } from './k-scale'
import { sideName, type SidedPlace } from './position'
import css from './k-axis.module.css'

/** Widths of the words at 12 px with a gap on either side. */
const WORD_PX = { sound: 46, watch: 46, degraded: 66, urgent: 52, critical: 50 }

/** A word is left out where the axis is too narrow for it; shape, tick and figure still say it. */
function wordClass(zone: Zone): string | undefined {
  const neededPx = (WORD_PX[zone.class] * 100) / (zone.toPercent - zone.fromPercent)
  return neededPx <= 340 ? undefined : neededPx <= 400 ? css.over400 : neededPx <= 520 ? css.over520 : css.over700
}

/** Is each side hotter or cooler than the line? Readings per side against the class edges, on one logarithmic axis. */
export function KAxis({
  assessment,
  place,
}: {
  assessment: StoredAssessment
  place: SidedPlace
}) {
  const { edges, sides } = assessment
  const scale = kScale(edges, sides)
  const edgeValues = [edges.watch, edges.degraded, edges.urgent, edges.critical]
  return (
    <figure className={css.plot}>
      <h3>Resistance of each side over that of the line</h3>
      <div className={css.words} aria-hidden="true">
        {scale.zones.map((z) => (
          <span key={z.class} className={wordClass(z)} style={{ left: `${(z.fromPercent + z.toPercent) / 2}%` }}>
            {z.class}
          </span>
        ))}
      </div>
      <svg className={css.svg} height="24" aria-hidden="true">
        {scale.zones.map((z) => (
          <rect
            key={z.class}
            x={`${z.fromPercent}%`}
            width={`${z.toPercent - z.fromPercent}%`}
            height="5"
            style={{ fill: `var(--class-${z.class})` }}
          />
        ))}
        {edgeValues.map((k) => (
          <g key={k}>
            <line x1={`${scale.percent(k)}%`} x2={`${scale.percent(k)}%`} y1="0" y2="9" className={css.base} />
            <text x={`${scale.percent(k)}%`} y="21" textAnchor="middle">
              {k.toFixed(2)}
            </text>
          </g>
        ))}
      </svg>
      {sides.map((s) => (
        <Side
          key={s.side}
          of={s}
          place={place}
          governs={assessment.governingSide === s.side && sides.length > 1}
          scale={scale}
          edges={edgeValues}
        />
      ))}
      <figcaption className={css.foot}>
        Triangle: as measured. Dot: what is believed, allowing for the instrument, the fitting and its age, with its central 90 %.{' '}
        Edges: {BASIS[edges.basis] ?? edges.basis}, policy {assessment.policyVersion}.
      </figcaption>
    </figure>
  )
}

const BASIS: Record<string, string> = {
  policy: 'policy table for 75 °C',
  computed: "computed for this section's operating temperature",
  section: 'set for this section',
}

function Side({
  of,
  place,
  governs,
  scale,
  edges,
}: {
  of: StoredSide
  place: SidedPlace
  governs: boolean
  scale: ReturnType<typeof kScale>
  edges: number[]
}) {
  const [low, high] = believedInterval(of)
  return (
    <div className={css.side}>
      <div className={css.sideHead}>
        <span>
          {sideName(of.side, place)}
          {governs && <span className={css.governs}> governs</span>}
        </span>
        <span className={css.figure}>
          {formatRatio(of.ratio, edges)}{' '}
          <small>
            ± {of.uRatio.toFixed(2)}, believed {formatRatio(of.medianK, edges)}
          </small>
        </span>
      </div>
      <svg
        className={css.svg}
        height="22"
        role="img"
        aria-label={sideSentence(of, place, edges)}>
        {edges.map((k) => (
          <line key={k} x1={`${scale.percent(k)}%`} x2={`${scale.percent(k)}%`} y1="0" y2="22" className={css.edge} />
        ))}
        <line x1="0" x2="100%" y1="13" y2="13" stroke="var(--line)" />
        <line x1={`${scale.percent(low)}%`} x2={`${scale.percent(high)}%`} y1="13" y2="13" className={css.range} />
        <circle cx={`${scale.percent(of.medianK)}%`} cy="13" r="5" className={css.dot} />
        <svg x={`${scale.percent(of.ratio)}%`} y="0" overflow="visible">
          <path d="M-4.5 0h9L0 6Z" className={css.measured} />
        </svg>
      </svg>
    </div>
  )
}

function sideSentence(of: StoredSide, place: SidedPlace, edges: number[]): string {
  const [low, high] = believedInterval(of)
  return [
    `${sideName(of.side, place)}: measured ${formatRatio(of.ratio, edges)}`, `believed ${formatRatio(of.medianK, edges)}`,
    `between ${low.toFixed(2)} and ${high.toFixed(2)}; ${of.class}`,
  ].join(', ')
}
