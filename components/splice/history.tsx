import { Fragment } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { DataTable } from '@/components/ui/data-table'
import css from '@/components/ui/sheet.module.css'
import type { HistoryEntry } from '@/lib/contract/contract'
import { formatDate, formatDateTime, formatTime } from '@/lib/units/time'
import { historyWords } from './history-words'

/** Paper keeps to the newest assessments. Who was told, who decided and what was repaired stands on it whole. */
const ASSESSMENTS_ON_PAPER = 4
/** More than so many are grouped by day. */
const MANY = 8

/** What happened to the splice, newest first: what was said of it, who was told, who decided, what was repaired and undone. */
export function History({ history, timeZone }: { history: readonly HistoryEntry[]; timeZone: string }) {
  // A decision says what it made of the class; the assessment it wrote would say it twice.
  const entries = history.filter((entry) => entry.kind !== 'assessment' || entry.cause !== 'engineer')
  if (entries.length === 0) return null
  const assessments = entries.filter((entry) => entry.kind === 'assessment')
  const left = new Set<HistoryEntry>(assessments.slice(ASSESSMENTS_ON_PAPER))
  const byDay = entries.length > MANY
  const dayOf = (entry: HistoryEntry | undefined) => (entry ? formatDate(Date.parse(entry.at), timeZone) : '')
  return (
    <section className={css.part}>
      <h2>History</h2>
      <DataTable caption="History, newest first">
        <thead>
          <tr>
            <th scope="col">When</th>
            <th scope="col">What</th>
          </tr>
        </thead>
        <tbody>
          {entries.map((entry, i) => (
            <Fragment key={i}>
              {byDay && dayOf(entry) !== dayOf(entries[i - 1]) && (
                <tr className={entries.every((other) => left.has(other) || dayOf(other) !== dayOf(entry)) ? 'no-print' : undefined}>
                  <th scope="col" colSpan={2}>
                    {dayOf(entry)}
                  </th>
                </tr>
              )}
              <Row entry={entry} onPaper={!left.has(entry)} when={(byDay ? formatTime : formatDateTime)(Date.parse(entry.at), timeZone)} />
            </Fragment>
          ))}
        </tbody>
      </DataTable>
      {left.size > 0 && (
        <p className={`${css.small} only-print`}>{left.size === 1 ? '1 earlier assessment is' : `${left.size} earlier assessments are`} on the screen.</p>
      )}
    </section>
  )
}

function Row({ entry, onPaper, when }: { entry: HistoryEntry; onPaper: boolean; when: string }) {
  const { what, detail } = historyWords(entry)
  return (
    <tr className={onPaper ? undefined : 'no-print'}>
      <td className={css.when}>{when}</td>
      <td>
        <span className={css.row}>
          {entry.kind === 'assessment' && <ClassMark class={entry.class} size={14} />}
          {what}
        </span>
        <span className={`${css.small} ${css.beside}`}>{detail}</span>
      </td>
    </tr>
  )
}
