import { Fragment } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { DataTable } from '@/components/ui/data-table'
import css from '@/components/ui/sheet.module.css'
import type { HistoryEntry } from '@/lib/contract/contract'
import { formatDate, formatDateTime, formatTime } from '@/lib/units/time'
import { groupHistory, offPaper, type Grouped } from './history-groups'
import { historyWords } from './history-words'

/** More than so many are grouped by day. */
const MANY = 3

/** What happened to the splice, newest first: what was said of it, who was told, who decided, what was repaired and undone. */
export function History({ history, timeZone }: { history: readonly HistoryEntry[]; timeZone: string }) {
  // A decision says what it made of the class; the assessment it wrote would say it twice.
  const entries = history.filter((entry) => entry.kind !== 'assessment' || entry.cause !== 'engineer')
  if (entries.length === 0) return null
  const groups = groupHistory(entries)
  const left = offPaper(entries)
  const byDay = groups.length > MANY
  const dayOf = (group: Grouped | undefined) => (group ? formatDate(Date.parse(group[0].at), timeZone) : '')
  return (
    <section className={css.part}>
      <h2>History</h2>
      <DataTable caption="History, newest first">
        <thead className="no-print">
          <tr>
            <th scope="col">When</th>
            <th scope="col">What</th>
          </tr>
        </thead>
        <tbody>
          {groups.map((group, i) => (
            <Fragment key={i}>
              {byDay && dayOf(group) !== dayOf(groups[i - 1]) && (
                <tr className={groups.every((other) => left.has(other[0]) || dayOf(other) !== dayOf(group)) ? 'no-print' : undefined}>
                  <th scope="col" colSpan={2}>
                    {dayOf(group)}
                  </th>
                </tr>
              )}
              <Row group={group} timeZone={timeZone} onPaper={!left.has(group[0])} when={(byDay ? formatTime : formatDateTime)(Date.parse(group[0].at), timeZone)} />
            </Fragment>
          ))}
        </tbody>
      </DataTable>
      {left.size > 0 && (
        <p className={`${css.small} only-print`}>{left.size === 1 ? '1 other entry is' : `${left.size} other entries are`} on the screen.</p>
      )}
    </section>
  )
}

function Row({ group, timeZone, onPaper, when }: { group: Grouped; timeZone: string; onPaper: boolean; when: string }) {
  const { what, detail } = historyWords(group, timeZone)
  const [entry] = group
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
