import type { ImportReport } from '@/lib/contract/contract'
import { count, many } from './words'
import css from './report.module.css'

interface Part {
  key: string
  label: string
  rows: number
}

/** Rows = read + rejected, and what became of the rows that were read, as one bar with its words. */
export function ReportFigures({ report }: { report: ImportReport }) {
  const readings = report.kind === 'readings'
  const added = report.read - report.already_held - (report.repeated ?? 0) - (readings ? report.placed + report.review : 0)
  const parts: Part[] = [
    ...(readings
      ? [
          { key: 'placed', label: 'placed', rows: report.placed },
          { key: 'review', label: 'to review', rows: report.review },
        ]
      : []),
    { key: 'added', label: readings ? 'read' : 'taken up', rows: added },
    { key: 'held', label: 'already held', rows: report.already_held },
    { key: 'held', label: 'the same as another row', rows: report.repeated ?? 0 },
    { key: 'rejected', label: 'not read', rows: report.rejected },
  ].filter((p) => p.rows > 0)
  return (
    <div className={css.figures}>
      <p className={css.equation}>
        <span>
          <b>{count(report.rows)}</b> {report.rows === 1 ? 'row' : 'rows'}
        </span>
        <span className={css.sign}>=</span>
        <span>
          <b>{count(report.read)}</b> read
        </span>
        <span className={css.sign}>+</span>
        <span className={report.rejected > 0 ? css.rejectedFigure : undefined}>
          <b>{count(report.rejected)}</b> not read
        </span>
      </p>
      {report.rows > 0 && (
        <>
          <div className={css.bar} aria-hidden="true">
            {parts.map((p) => (
              <i key={p.label} className={css[p.key]} style={{ flexGrow: p.rows }} />
            ))}
          </div>
          <ul className={css.parts}>
            {parts.map((p) => (
              <li key={p.label}>
                <i className={css[p.key]} aria-hidden="true" />
                <b>{count(p.rows)}</b> {p.label}
              </li>
            ))}
          </ul>
        </>
      )}
      {report.new_splices > 0 && <p className={css.found}>{newSplicesWords(report)}</p>}
    </div>
  )
}

function newSplicesWords({ kind, new_splices: n }: ImportReport): string {
  if (kind !== 'readings') return `${many(n, 'splice is', 'splices are')} new on the list.`
  return `${many(n, 'splice was', 'splices were')} not on the list and ${n === 1 ? 'is' : 'are'} marked as found by survey.`
}
