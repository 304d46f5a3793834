'use client'
import { useEffect, useRef, useState } from 'react'
import { useSearchParams } from 'next/navigation'
import { Button } from '@/components/ui/button'
import { DataTable, num } from '@/components/ui/data-table'
import { asSentences } from '@/components/ui/fetch-json'
import { Icon } from '@/components/ui/icons'
import { ErrorState } from '@/components/ui/states'
import { useLocalText } from '@/components/ui/use-local-text'
import type { ImportReport } from '@/lib/contract/contract'
import { labelOf } from './field-choices'
import { groupIssues, type IssueGroup } from './issue-groups'
import { useIssues } from './use-imports'
import { faultText } from './issue-words'
import { count, many, type Kind } from './words'
import css from './report.module.css'

const ROWS_SHOWN = 25

/** Everything that was wrong or doubtful, by kind of fault; each opens to its rows. */
export function ReportIssues({ report }: { report: ImportReport }) {
  const beyond = report.issue_count > report.issues.length
  const more = useIssues(report.import_id, beyond)
  const wanted = useSearchParams().get('show') === 'rejected'
  const loaded = beyond && more.data ? more.data.pages.flatMap((p) => p.items) : report.issues
  const groups = groupIssues(loaded)
  const firstRejected = groups.find((g) => g.severity === 'error')
  if (report.issue_count === 0) return <p className={css.clean}>Every row was read without a remark.</p>
  return (
    <section aria-labelledby="issues-title" className={css.issues}>
      <header>
        <h2 id="issues-title">{many(report.issue_count, 'issue')}</h2>
        {report.rejected > 0 && (
          <Button asChild size="small">
            <a href={`/api/v1/imports/${report.import_id}/rejected.csv`} download>
              <Icon name="download" />
              {many(report.rejected, 'row')} not read, as CSV
            </a>
          </Button>
        )}
      </header>
      {groups.map((g) => (
        <Group key={g.key} kind={report.kind} group={g} open={wanted && g.severity === 'error'} lead={wanted && g === firstRejected} />
      ))}
      {more.isError && (
        <ErrorState small {...asSentences(more.error)} action={<Button onClick={() => void more.refetch()}>Try again</Button>} />
      )}
      {loaded.length < report.issue_count && (
        <p className={css.beyond}>
          Counted over the first {count(loaded.length)} of {count(report.issue_count)}.
          {more.hasNextPage && (
            <Button size="small" busy={more.isFetchingNextPage} onClick={() => void more.fetchNextPage()}>
              Load more
            </Button>
          )}
        </p>
      )}
    </section>
  )
}

/** `lead`: what somebody came for, so that it is brought into view. */
function Group({ kind, group, open, lead }: { kind: Kind; group: IssueGroup; open: boolean; lead: boolean }) {
  const ref = useRef<HTMLDetailsElement>(null)
  useEffect(() => {
    if (lead) ref.current?.scrollIntoView({ block: 'center' })
  }, [lead])
  const [all, setAll] = useState(false)
  const local = useLocalText()
  const [first] = group.rows
  if (!first) return null
  const withLines = group.rows.some((i) => i.line !== null)
  const shown = all ? group.rows : group.rows.slice(0, ROWS_SHOWN)
  return (
    <details ref={ref} className={css.group} open={open}>
      <summary>
        <Icon name="right" />
        <span className={group.severity === 'error' ? css.error : css.warning}>
          {group.severity === 'error' ? 'Not read' : 'Warning'}
        </span>
        <span className={css.example}>
          {first.field !== null && `${labelOf(kind, first.field)}: `}
          {faultText(first.message)}
        </span>
        <b>{first.row === 0 ? 'File' : many(group.rows.length, 'row')}</b>
      </summary>
      <p className={css.remedy}>
        {group.remedy !== null && local(group.remedy)} <span className={css.code}>Code {group.code}</span>
      </p>
      <DataTable caption={`Rows with ${group.code}`}>
        <thead>
          <tr>
            <th scope="col" className={num}>
              Row
            </th>
            {withLines && (
              <th scope="col" className={num}>
                Line
              </th>
            )}
            <th scope="col">Field</th>
            <th scope="col">Value</th>
            <th scope="col">What is wrong</th>
            {group.remedy === null && <th scope="col">Remedy</th>}
          </tr>
        </thead>
        <tbody>
          {shown.map((i, n) => (
            <tr key={n}>
              <td className={num}>{i.row === 0 ? 'File' : i.row}</td>
              {withLines && <td className={num}>{i.line ?? ''}</td>}
              <td>{labelOf(kind, i.field) ?? ''}</td>
              <td className={css.value}>{i.value ?? ''}</td>
              <td>{faultText(i.message)}</td>
              {group.remedy === null && <td>{local(i.remedy)}</td>}
            </tr>
          ))}
        </tbody>
      </DataTable>
      {!all && group.rows.length > ROWS_SHOWN && (
        <Button size="small" onClick={() => setAll(true)}>
          Show all {count(group.rows.length)} rows
        </Button>
      )}
    </details>
  )
}
