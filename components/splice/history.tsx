import { ClassMark } from '@/components/map/class-mark'
import { DataTable, num } from '@/components/ui/data-table'
import css from '@/components/ui/sheet.module.css'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatRatio } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'

const CAUSE: Record<string, string> = {
  import: 'readings imported',
  undo: 'an import undone',
  review: 'a reading placed by hand',
  policy: 'policy changed',
  engineer: "an engineer's decision",
}

/** What was said of the splice, when, and on whose account; newest first. */
export function History({ history, timeZone }: { history: SpliceDetail['history']; timeZone: string }) {
  if (history.length === 0) return null
  const newestFirst = [...history].sort((a, b) => b.assessed_at.localeCompare(a.assessed_at))
  return (
    <section className={css.part}>
      <h2>What was said of it</h2>
      <DataTable caption="Assessments, newest first" brief>
        <thead>
          <tr>
            <th scope="col">Assessed</th>
            <th scope="col">Class</th>
            <th scope="col" className={num}>
              Ratio
            </th>
            <th scope="col">Because</th>
          </tr>
        </thead>
        <tbody>
          {newestFirst.map((h) => (
            <tr key={h.assessed_at + h.cause}>
              <td>{formatDateTime(Date.parse(h.assessed_at), timeZone)}</td>
              <td style={{ whiteSpace: 'nowrap' }}>
                <span className={css.row} style={{ flexWrap: 'nowrap' }}>
                  <ClassMark class={h.class} size={14} />
                  {h.class}
                </span>
              </td>
              <td className={num}>{h.ratio === null ? '–' : formatRatio(h.ratio)}</td>
              <td>
                {CAUSE[h.cause] ?? h.cause}
                <span className={css.small}>, policy {h.policy_version}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </DataTable>
    </section>
  )
}
