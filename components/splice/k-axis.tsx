import { ClassMark } from '@/components/map/class-mark'
import { formatEdge, formatRatio, type UnitSystem } from '@/lib/units/format'
import type { HeldFinding } from '@/lib/contract/contract'
import { formatDate } from '@/lib/units/time'
import { believedInterval, type StoredAssessment, type StoredSide } from './assessment'
import type { Outlook } from '@/lib/contract/outlook'
import { edgesText, type EdgesOfSection } from './edges-text'
import { Figure } from './k-axis-figure'
import { InfraredRow, infraredOf } from './k-axis-infrared'
import { edgeLabels, kScale } from './k-scale'
import { sideName, type SidedPlace } from './position'
import css from './k-axis.module.css'

type Fusion = NonNullable<Outlook['fusion']>

/** A line of labels below the axis. */
const ROW_PX = 15

interface Props {
  assessment: StoredAssessment
  place: SidedPlace & EdgesOfSection
  /** How infrared stands to resistance; null where no picture tells a ratio. */
  fusion: Fusion | null
  system: UnitSystem
  timeZone: string
  /** The finding that holds the class, where one does. */
  hold: HeldFinding | null
}

/** Is a side worse than its conductor? Readings per side and by infrared against the class edges, on one logarithmic axis. */
export function KAxis({ assessment, place, fusion, system, timeZone, hold }: Props) {
  const { edges, sides } = assessment
  const infrared = infraredOf(fusion)
  const byPicture = assessment.raisedBy === undefined && fusion?.taken === 'infrared'
  const scale = kScale(edges, sides, [...(infrared ? [infrared.k, infrared.low, infrared.high] : []), ...(hold?.ratio ? [hold.ratio] : [])])
  const labels = edgeLabels(scale)
  const rows = Math.max(...labels.map(({ row }) => row)) + 1
  return (
    <figure className={css.plot}>
      <h3>
        {sides.length > 0 ? 'Is a side' : 'Is it'} worse than its conductor? <small>Ratio to the same length of conductor</small>
      </h3>
      <div className={css.marks} aria-hidden="true">
        {scale.zones.map((z) => (
          <span key={z.class} style={{ left: `${(z.fromPercent + z.toPercent) / 2}%` }}>
            <ClassMark class={z.class} size={12} />
          </span>
        ))}
      </div>
      <svg className={css.svg} height={8 + rows * ROW_PX} aria-hidden="true">
        {scale.zones.map((z) => (
          <rect
            key={z.class}
            x={`${z.fromPercent}%`}
            width={`${z.toPercent - z.fromPercent}%`}
            height="5"
            style={{ fill: `var(--class-${z.class})` }}
          />
        ))}
        {labels.map(({ class: name, edge, atPercent, row }) =>
          edge !== null && <line key={name} x1={`${atPercent}%`} x2={`${atPercent}%`} y2={5 + (row + 1) * ROW_PX - 3} className={css.base} />)}
        {labels.map(({ class: name, edge, atPercent, row }) => (
          <svg key={name} x={`${atPercent}%`} overflow="visible">
            <text className={css.edgeWords} x={edge === null ? 0 : 4} y={5 + (row + 1) * ROW_PX - 2}>
              {edge !== null && <tspan className={css.edgeFigure}>{formatEdge(edge)} </tspan>}
              {name}
            </text>
          </svg>
        ))}
      </svg>
      {hold && hold.ratio !== null && <HeldMark ratio={hold.ratio} foundAt={hold.found_at} timeZone={timeZone} scale={scale} />}
      {sides.map((s) => (
        <Side key={s.side} of={s} place={place} governs={!hold && !byPicture && assessment.governingSide === s.side && sides.length > 1} scale={scale} />
      ))}
      {infrared && <InfraredRow of={infrared} governs={!hold && byPicture} scale={scale} timeZone={timeZone} />}
      <figcaption className={css.foot}>
        <details>
          <summary>How to read it, and the edges</summary>
          {hold && hold.ratio !== null && 'Ring: the finding that holds the class, as measured. '}
          {infrared?.word === 'now' && 'Open dot, broken bar: the picture as it counts today, nine times in ten within the bar. '}
          {infrared && 'Infrared sees the mean of the whole splice, not its worse side. '}
          Triangle: as measured, ± its standard error. Dot: what is believed, nine times in ten within the bar. <span className="no-print">{edgesText(assessment, place, system)}</span>
        </details>
      </figcaption>
    </figure>
  )
}

/** The finding that holds the class, in a row of its own: the sides below are of a later reading. */
function HeldMark({ ratio, foundAt, timeZone, scale }: { ratio: number; foundAt: string | null; timeZone: string; scale: Scale }) {
  const name = `Held finding, ${foundAt === null ? 'a day nobody noted' : formatDate(Date.parse(foundAt), timeZone)}`
  return (
    <div className={css.side}>
      <div className={css.sideHead}>
        <span>
          <b>{name}</b>
          <span className={css.governs}>, governs until it is cleared</span>
        </span>
        <span className={css.figure}>{formatRatio(ratio, scale.edges)}</span>
      </div>
      <svg className={css.svg} height="18" role="img" aria-label={`${name}: measured ${formatRatio(ratio, scale.edges)}; it governs until it is cleared`}>
        <Edges scale={scale} heightPx={18} />
        <line x1="0" x2="100%" y1="9" y2="9" className={css.ground} />
        <circle cx={`${scale.percent(ratio)}%`} cy="9" r="5.5" className={css.held} />
      </svg>
    </div>
  )
}

const Edges = ({ scale, heightPx }: { scale: Scale; heightPx: number }) =>
  scale.edges.map((k) => (
    <line key={k} x1={`${scale.percent(k)}%`} x2={`${scale.percent(k)}%`} y1="0" y2={heightPx} className={css.edge} />
  ))

type Scale = ReturnType<typeof kScale>

interface SideProps {
  of: StoredSide
  place: SidedPlace
  governs: boolean
  scale: Scale
}

function Side({ of, place, governs, scale }: SideProps) {
  const [low, high] = believedInterval(of)
  return (
    <div className={css.side}>
      <div className={css.sideHead}>
        <span>
          {nameOf(of, place)}
          {governs && <span className={css.governs}>, governs</span>}
        </span>
        <Figure k={of.ratio} uK={of.uRatio} other={{ word: 'believed', k: of.medianK }} edges={scale.edges} />
      </div>
      <svg className={css.svg} height="19" role="img" aria-label={sideSentence(of, place, scale.edges)}>
        <Edges scale={scale} heightPx={19} />
        <line x1="0" x2="100%" y1="13" y2="13" className={css.ground} />
        <line x1={`${scale.percent(low)}%`} x2={`${scale.percent(high)}%`} y1="13" y2="13" className={css.range} />
        <circle cx={`${scale.percent(of.medianK)}%`} cy="13" r="5" className={css.dot} />
        <svg x={`${scale.percent(of.ratio)}%`} y="0" overflow="visible">
          <path d="M-4.5 0h9L0 6Z" className={css.measured} />
        </svg>
      </svg>
    </div>
  )
}

const nameOf = (of: StoredSide, place: SidedPlace): string => sideName(of.side, place, !of.flags.includes('sides-undeclared'))

function sideSentence(of: StoredSide, place: SidedPlace, edges: readonly number[]): string {
  const [low, high] = believedInterval(of)
  return [
    `${nameOf(of, place)}: measured ${formatRatio(of.ratio, edges)}`, `believed ${formatRatio(of.medianK, edges)}`,
    `between ${low.toFixed(2)} and ${high.toFixed(2)}; ${of.class}`,
  ].join(', ')
}
