import { Fragment } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { DataTable } from '@/components/ui/data-table'
import { Newest } from '@/components/ui/newest'
import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import type { HistoryEntry } from '@/lib/contract/history'
import { formatDate, formatDateTime, formatTime } from '@/lib/units/time'
import { groupHistory, offPaper, type Grouped } from './history-groups'
import { historyWords } from './history-words'

/** More than so many are grouped by day. */
const MANY = 3

/** So many lines stand on the screen at once. */
const AT_ONCE = 2

/** What stands behind a press: what paper leaves out, and what is older than the newest few, unless all of it has room. */
function earlierOf(groups: readonly Grouped[], left: ReadonlySet<HistoryEntry>): Set<Grouped> {
  if (groups.length <= AT_ONCE) return new Set()
  const shown = groups.filter((group) => !left.has(group[0])).slice(0, AT_ONCE)
  return new Set(groups.filter((group) => !shown.includes(group)))
}

/** What happened to the splice, newest first: what was said of it, who was told, who decided, what was repaired and undone. */
export function History({ history, timeZone }: { history: readonly HistoryEntry[]; timeZone: string }) {
  // A decision says what it made of the class; the assessment it wrote would say it twice.
  const entries = history.filter((entry) => entry.kind !== 'assessment' || entry.cause !== 'engineer')
  if (entries.length === 0) return null
  const groups = groupHistory(entries)
  const left = offPaper(entries)
  const byDay = groups.length > MANY
  const earlier = earlierOf(groups, left)
  const ofDay = (group: Grouped) => groups.filter((other) => dayOf(other) === dayOf(group))
  const dayOf = (group: Grouped | undefined) => (group ? formatDate(Date.parse(group[0].at), timeZone) : '')
  return (
    <section className={cx(css.part, css.log)}>
      <h2>History</h2>
      <Newest more={earlier.size === 0 ? '' : `${earlier.size} other ${earlier.size === 1 ? 'entry' : 'entries'}`}>
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
                  <tr className={ofDay(group).every((other) => left.has(other[0])) ? 'no-print' : undefined} data-earlier={ofDay(group).every((other) => earlier.has(other)) || undefined}>
                    <th scope="col" colSpan={2}>
                      {dayOf(group)}
                    </th>
                  </tr>
                )}
                <Row group={group} timeZone={timeZone} onPaper={!left.has(group[0])} earlier={earlier.has(group)} when={(byDay ? formatTime : formatDateTime)(Date.parse(group[0].at), timeZone)} />
              </Fragment>
            ))}
          </tbody>
        </DataTable>
      </Newest>
      {left.size > 0 && (
        <p className={`${css.small} only-print`}>{left.size === 1 ? '1 other entry is' : `${left.size} other entries are`} on the screen.</p>
      )}
    </section>
  )
}

function Row({ group, timeZone, onPaper, earlier, when }: { group: Grouped; timeZone: string; onPaper: boolean; earlier: boolean; when: string }) {
  const { what, detail } = historyWords(group, timeZone)
  const [entry] = group
  return (
    <tr className={onPaper ? undefined : 'no-print'} data-earlier={earlier || undefined}>
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
