import type { ReactNode } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { cx } from '@/components/ui/class-names'
import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import { CLASS_WORDS } from '@/lib/condition'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatVoltage, type UnitSystem } from '@/lib/units/format'
import { formatDateTime, formatMonth } from '@/lib/units/time'
import { dayText } from './age'
import { BigFigure } from './big-figure'
import type { Heat } from './explanation'
import { limitAlarms } from './governing'
import { pastText, readAtMs, wasSound } from './past-re-measure'
import { Held } from './held'
import { positionText, spokenText, type PhaseLetters } from './position'

interface Props {
  detail: SpliceDetail
  heat: Heat | null
  /** The class in one sentence; the box of a held class says it instead. */
  sentence: string
  edges: number[]
  /** Where the class on show begins, if the section has edges of its own. */
  ownEdge: number | null
  system: UnitSystem
  timeZone: string
  letters: PhaseLetters
  nowMs: number
  tools?: ReactNode
  decide?: ReactNode
  onSelectCircuit?(id: number): void
}

/** What it is and how it stands, in one sentence, and where: what a person on the phone is told first. */
export function SheetHead({ detail, heat, sentence, edges, ownEdge, system, timeZone, letters, nowMs, tools, decide, onSelectCircuit }: Props) {
  return (
    <header className={cx(css.part, css.head)}>
      <p className={css.kicker}>
        <span>Splice on</span>
        <InPlaceLink href={`/circuits/${detail.circuit_id}`} onSelect={onSelectCircuit && (() => onSelectCircuit(detail.circuit_id))}>
          {detail.circuit}
        </InPlaceLink>
        {detail.section !== 'main' && <span>section {detail.section}</span>}
        {detail.assessed_at !== null && <span className="no-print">as of {formatDateTime(Date.parse(detail.assessed_at), timeZone)}</span>}
      </p>
      <div className={css.titleRow}>
        <div>
          <h1 id="splice-title" className={css.title} tabIndex={-1}>
            {detail.splice}
          </h1>
          <Standing detail={detail} timeZone={timeZone} nowMs={nowMs} />
        </div>
        <BigFigure detail={detail} heat={heat} edges={edges} ownEdge={ownEdge} system={system} timeZone={timeZone} />
      </div>
      {sentence !== '' && !detail.hold && <p className={css.lead}>{sentence}</p>}
      {limitAlarms(detail, nowMs).map((alarm) => (
        <p key={alarm} className={css.overdue}>
          {alarm}
        </p>
      ))}
      <p className={css.place}>{placeText(detail, system, letters)}</p>
      {detail.hold && <Held detail={{ ...detail, hold: detail.hold }} edges={edges} timeZone={timeZone} decide={decide} />}
      {detail.removed_on && <p className={css.note}>Removed on {dayText(detail.removed_on)}: kept for the record.</p>}
      {tools && <div className={cx(css.tools, 'no-print')}>{tools}</div>}
    </header>
  )
}

/** The class with how sure it is; what nobody measured again in time is said of then. */
function Standing({ detail, timeZone, nowMs }: Pick<Props, 'detail' | 'timeZone' | 'nowMs'>) {
  const was = wasSound(detail, nowMs)
  const past = pastText(detail, timeZone, nowMs)
  const atMs = readAtMs(detail)
  const read = atMs === null ? '' : `, ${formatMonth(atMs, timeZone)}`
  return (
    <p className={css.standing}>
      <ClassMark class={detail.class} size={18} />
      <strong>{was ? `Was ${CLASS_WORDS.sound.toLowerCase()}${read}` : CLASS_WORDS[detail.class]}</strong>
      {past && <span className={css.past}>{past}</span>}
      <span className="muted">{detail.held ? 'held' : `${detail.confidence} confidence`}</span>
    </p>
  )
}

/** 'Elm - Oak No. 1, 138 kV, STR 45-46 + 404 ft, phase B, one third ahead of 45': what a crew or an operator is told first. */
const placeText = (detail: SpliceDetail, system: UnitSystem, letters: PhaseLetters): string =>
  [detail.line_name, detail.voltage_kv === null ? null : formatVoltage(detail.voltage_kv), positionText(detail, system, letters), spokenText(detail, detail.span_m) || null]
    .filter((part) => part !== null).join(', ')
