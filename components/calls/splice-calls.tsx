import type { ReactNode } from 'react'
import { cx } from '@/components/ui/class-names'
import sheet from '@/components/ui/sheet.module.css'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { UnitSystem } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'
import { formatDateTime } from '@/lib/units/time'
import { decidedText, notedText, struckText, whoText } from './words'
import css from './calls.module.css'

interface Props {
  detail: Pick<SpliceDetail, 'calls' | 'class' | 'removed_on'>
  system: UnitSystem
  timeZone: string
  /** Where a call is recorded. */
  act?: ReactNode
}

const SHOWN = 3

/** The log of one splice on its sheet: the last calls and looks, and the way to note another. */
export function SpliceCalls({ detail, system, timeZone, act }: Props) {
  const { calls } = detail
  const concerns = detail.class === 'degraded' || detail.class === 'urgent' || detail.class === 'critical'
  if (calls.length === 0 && (!concerns || detail.removed_on !== null)) return null
  // On paper the last that stands; what the control room was told stands in Next there, and the screen has all of it.
  const onPaper = calls.find(({ kind, struck_at }) => kind !== 'told' && struck_at === null)
  const item = (entry: SpliceDetail['calls'][number]) => (
    <li key={entry.key} className={cx(entry.struck_at !== null && css.struck, entry !== onPaper && 'no-print', entry.kind === 'told' && sheet.saidBeside)}>
      <span>
        <time dateTime={entry.at}>{formatDateTime(Date.parse(entry.at), timeZone)}</time>: {whoText(entry)}
        {entry.decided.length > 0 && <>. {spell(decidedText(entry), system)}</>}
        {entry.note !== null && <>. {entry.note}</>}
        {notedText(entry, timeZone) !== '' && <span className="muted"> ({notedText(entry, timeZone)})</span>}
      </span>
      {entry.struck_at !== null && <small>{struckText(entry, timeZone)}</small>}
    </li>
  )
  return (
    <section className={cx(sheet.part, sheet.whole, sheet.oneLine, onPaper === undefined && 'no-print')}>
      <h2>Calls</h2>
      {calls.length === 0 ? <p className={sheet.note}>No call is noted.</p> : <ul className={`${sheet.sentences} ${css.brief}`}>{calls.slice(0, SHOWN).map(item)}</ul>}
      {calls.length > SHOWN && (
        <details className="no-print">
          <summary>{calls.length - SHOWN} earlier</summary>
          <ul className={`${sheet.sentences} ${css.brief}`}>{calls.slice(SHOWN).map(item)}</ul>
        </details>
      )}
      {act && detail.removed_on === null && <p className={`${sheet.row} no-print`}>{act}</p>}
    </section>
  )
}
