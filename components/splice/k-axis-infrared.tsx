import type { Outlook } from '@/lib/contract/outlook'
import { formatRatio } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import { Figure } from './k-axis-figure'
import type { kScale } from './k-scale'
import css from './k-axis.module.css'

/** 1.645 standard deviations either way: nine times in ten. */
const NINE_IN_TEN = 1.645

export interface InfraredRatio {
  k: number
  /** Standard error of k itself. */
  uK: number
  /** What is believed of the splice where infrared makes its class, else the picture as it counts today; and where the true ratio lies nine times in ten. */
  drawnK: number
  low: number
  high: number
  word: 'believed' | 'now'
  takenAtMs: number | null
}

/** The picture that counts; null where none tells a ratio. */
export function infraredOf(fusion: Outlook['fusion']): InfraredRatio | null {
  const source = fusion?.sources.find((one) => one.source === 'infrared')
  if (!source) return null
  const believed = fusion?.believed
  const [drawnK, uLnK] = believed ? [believed.k, believed.u_ln_k] : [source.aged_k, source.aged_u_ln_k]
  const factor = Math.exp(NINE_IN_TEN * uLnK)
  return {
    k: source.k, uK: source.k * source.u_ln_k, drawnK, low: drawnK / factor, high: drawnK * factor, word: believed ? 'believed' : 'now',
    takenAtMs: source.taken_at === null ? null : Date.parse(source.taken_at),
  }
}

interface Props {
  of: InfraredRatio
  governs: boolean
  scale: ReturnType<typeof kScale>
  timeZone: string
}

/** The ratio by infrared under those of the sides, on the same axis. */
export function InfraredRow({ of, governs, scale, timeZone }: Props) {
  const { percent, edges } = scale
  return (
    <div className={css.side}>
      <div className={css.sideHead}>
        <span>
          Infrared{of.takenAtMs === null ? ', undated' : `, ${formatDate(of.takenAtMs, timeZone)}`}
          {governs && <span className={css.governs}>, governs</span>}
        </span>
        <Figure k={of.k} uK={of.uK} other={{ word: of.word, k: of.drawnK }} edges={edges} />
      </div>
      <svg
        className={css.svg} height="19" role="img"
        aria-label={`Infrared: measured ${formatRatio(of.k, edges)}, ${of.word} ${formatRatio(of.drawnK, edges)}, between ${of.low.toFixed(2)} and ${of.high.toFixed(2)}`}
      >
        {edges.map((k) => (
          <line key={k} x1={`${percent(k)}%`} x2={`${percent(k)}%`} y1="0" y2="19" className={css.edge} />
        ))}
        <line x1="0" x2="100%" y1="13" y2="13" className={css.ground} />
        <line x1={`${percent(of.low)}%`} x2={`${percent(of.high)}%`} y1="13" y2="13" className={of.word === 'believed' ? css.range : css.rangeInfrared} />
        <circle cx={`${percent(of.drawnK)}%`} cy="13" r="5" className={of.word === 'believed' ? css.dot : css.dotInfrared} />
        <svg x={`${percent(of.k)}%`} y="0" overflow="visible">
          <path d="M-4.5 0h9L0 6Z" className={css.measured} />
        </svg>
      </svg>
    </div>
  )
}
