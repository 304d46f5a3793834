import { ClassMark } from '@/components/map/class-mark'
import { agoText } from '@/components/splice/age'
import { classNow, isPastReMeasure, pastText, readAtMs } from '@/components/splice/past-re-measure'
import { positionText, type PhaseLetters } from '@/components/splice/position'
import { cx } from '@/components/ui/class-names'
import { CONDITION_CLASSES } from '@/lib/condition/types'
import type { ClassCounts, ListedSplice, SpliceSummary } from '@/lib/contract/contract'
import { formatRatio, type UnitSystem } from '@/lib/units/format'
import { formatMonth } from '@/lib/units/time'
import { shortTogetherText, togetherText } from './corridor-words'
import type { ListRow } from './list-rows'
import { WatchLine } from './watch-line'
import { nextText, riskText, stateText } from './watch-words'
import css from './splice-list.module.css'

export interface RowWords {
  system: UnitSystem
  timeZone: string
  letters: PhaseLetters
  nowMs: number
  lineNames: ReadonlyMap<number, string>
}

const FIRST_WORDS = 'Degraded or worse, by risk'

/** The row read aloud: the same as is drawn, class in words, time absolute and relative. */
export function rowLabel(row: ListRow, words: RowWords): string {
  if (row.type !== 'splice') {
    const counts = [...CONDITION_CLASSES]
      .reverse()
      .filter((c) => row.counts[c] > 0)
      .map((c) => `${row.counts[c]} ${c}`)
    return `${headingText(row, words.system)}: ${counts.join(', ')}`
  }
  const s = row.splice
  const atMs = readAtMs(s)
  return [
    `${s.splice}, ${classNow(s, words.nowMs)}${s.held ? ', held' : ''}`,
    pastText(s, words.timeZone, words.nowMs),
    s.ratio === null ? 'no ratio' : `${s.watch?.finding_withdrawn ? 'ratio of a withdrawn reading' : 'measured ratio'} ${formatRatio(s.ratio)}`,
    s.held ? `evidence now ${s.measured_class}` : `${s.confidence} confidence`,
    positionText(s, words.system, words.letters),
    atMs === null ? 'no dated reading' : `read ${formatMonth(atMs, words.timeZone)}, ${agoText(atMs, words.nowMs)}`,
    `circuit ${s.circuit}`,
    ...(s.watch ? [nextText(s.watch, words.nowMs, words.timeZone).text, s.watch.owner === null ? 'not taken' : `taken by ${s.watch.owner}`, riskText(s.watch, s.last_reading_at, words.nowMs), stateText(s.watch)] : []),
  ].filter(Boolean).join(', ')
}

const headingText = (row: Exclude<ListRow, { type: 'splice' }>, system: UnitSystem): string =>
  row.type === 'heading' ? FIRST_WORDS : row.type === 'circuit' ? `Circuit ${row.circuit}` : `Corridor ${row.corridor.name}, ${togetherText(row.corridor, system)}`

/** Over what is critical or urgent, whatever circuit it is on. */
export function HeadingRow({ counts }: { counts: ClassCounts }) {
  return (
    <>
      <strong>{FIRST_WORDS}</strong>
      <Tally counts={counts} />
    </>
  )
}

export function CircuitRow({ row, words }: { row: Extract<ListRow, { type: 'circuit' }>; words: RowWords }) {
  return (
    <>
      <strong>{row.circuit}</strong>
      <span className={css.line}>{words.lineNames.get(row.circuitId)}</span>
      <Tally counts={row.counts} />
    </>
  )
}

export function CorridorRow({ row, words }: { row: Extract<ListRow, { type: 'corridor' }>; words: RowWords }) {
  return (
    <>
      <strong title={row.corridor.name}>{row.corridor.name}</strong>
      <Tally counts={row.counts} />
      <span className={css.line} title={togetherText(row.corridor, words.system)}>{shortTogetherText(row.corridor, words.system)}</span>
    </>
  )
}

function Tally({ counts }: { counts: ClassCounts }) {
  return (
    <span className={css.tally}>
      {(['critical', 'urgent', 'degraded'] as const).map((c) =>
        counts[c] === 0 ? null : (
          <span key={c}>
            <ClassMark class={c} size={12} />
            {counts[c]}
          </span>
        ),
      )}
    </span>
  )
}

/** Its circuit, said in the row or above it, says which side of the structures it hangs on and, with its phase, where; the sheet has all of it. */
const short = (s: SpliceSummary) => ({ ...s, circuit_side: null, position: s.phase ? null : s.position })

export function SpliceRow({ splice: s, among, words }: { splice: ListedSplice; among: boolean; words: RowWords }) {
  const atMs = readAtMs(s)
  return (
    <>
      <span className={css.mark}>
        <ClassMark class={s.class} size={18} />
      </span>
      <span className={css.name}>
        <strong>{s.splice}</strong>{' '}
        <span className="muted">
          {classNow(s, words.nowMs)}
          {s.held ? ', held' : ''}
          {(among || s.watch) && ` on ${s.circuit}`}
        </span>
      </span>
      <span className={css.ratio} title={s.watch?.finding_withdrawn ? 'Ratio of a reading that was withdrawn' : 'Measured ratio'}>
        {!s.held && <ConfidenceBars level={s.confidence} />}
        {s.ratio === null ? <span className="muted">–</span> : formatRatio(s.ratio)}
      </span>
      <span className={css.place}>{positionText(short(s), words.system, words.letters)}</span>
      <span
        className={cx(css.age, isPastReMeasure(s, words.nowMs) && css.past)}
        title={atMs === null ? undefined : [agoText(atMs, words.nowMs), pastText(s, words.timeZone, words.nowMs)].filter(Boolean).join(', ')}>
        {atMs === null ? 'not read' : formatMonth(atMs, words.timeZone)}
      </span>
      {s.watch && <WatchLine splice={s} watch={s.watch} nowMs={words.nowMs} timeZone={words.timeZone} />}
    </>
  )
}

/** One to three bars; the word is in the row's label. */
function ConfidenceBars({ level }: { level: 'high' | 'medium' | 'low' }) {
  const on = { low: 1, medium: 2, high: 3 }[level]
  return (
    <span className={css.bars} title={`${level} confidence`} aria-hidden="true">
      {[1, 2, 3].map((i) => (
        <i key={i} className={i <= on ? css.on : undefined} />
      ))}
    </span>
  )
}
