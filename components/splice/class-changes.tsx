import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import type { ClassChangesJson } from '@/lib/contract/class-changes'
import css from './class-changes.module.css'

/** How many splices go from which class to which, and the worst of them by name. `keeps` says whose sheet there will be. */
export function ClassChanges({ changes, words, keeps = () => true }: {
  changes: ClassChangesJson
  words: { from: string; to: string }
  keeps?: (splice: ClassChangesJson['splices'][number]) => boolean
}) {
  return (
    <>
      <table className={css.table}>
        <caption className="visually-hidden">
          Splices by class {words.from.toLowerCase()} and {words.to.toLowerCase()}
        </caption>
        <thead className="visually-hidden">
          <tr>
            <th scope="col">{words.from}</th>
            <th scope="col">{words.to}</th>
            <th scope="col">Splices</th>
          </tr>
        </thead>
        <tbody>
          {changes.changes.map((c) => (
            <tr key={`${c.from} ${c.to}`}>
              <td>
                <ClassMark class={c.from} size={14} /> {c.from}
              </td>
              <td>
                <span aria-hidden="true">→ </span>
                <ClassMark class={c.to} size={14} /> {c.to}
              </td>
              <td>{c.count.toLocaleString('en-US')}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <details className={css.which}>
        <summary>{changes.splices.length < changes.total ? `The first ${changes.splices.length} of them` : 'Which splices'}</summary>
        <ul>
          {changes.splices.map((s) => (
            <li key={s.id}>
              {keeps(s) ? <Link href={`/splices/${s.id}`}>{s.splice}</Link> : s.splice}
              <span>
                {s.from} → {s.to}
              </span>
            </li>
          ))}
        </ul>
      </details>
    </>
  )
}
