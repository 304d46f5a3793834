'use client'
import { useState } from 'react'
import Link from 'next/link'
import { Button } from '@/components/ui/button'
import { DataTable, num } from '@/components/ui/data-table'
import { asSentences } from '@/components/ui/fetch-json'
import { useTimeZone } from '@/components/ui/preferences'
import { EmptyState, ErrorState, Skeleton } from '@/components/ui/states'
import { useLocalText } from '@/components/ui/use-local-text'
import type { ImportStatus } from '@/lib/contract/contract'
import { formatDateTime } from '@/lib/units/time'
import { ImportProgress } from './import-progress'
import { UndoImport } from './undo-import'
import { useImports } from './use-imports'
import { count, isOfSurvey, isUnderWay, kindLabel, many, stateWords } from './words'
import css from './intake.module.css'

/** What came in, when, by whom, what became of it, and the way back; dry runs, which left nothing, apart from it. */
export function PastImports() {
  const [open, setOpen] = useState(false)
  return (
    <section aria-labelledby="past-title" className={css.past}>
      <h2 id="past-title" className={css.sectionTitle}>
        Past imports
      </h2>
      <ImportList dryRuns={false} />
      <details className={css.dryRuns} onToggle={(e) => setOpen(e.currentTarget.open)}>
        <summary>Dry runs</summary>
        {open && <p className={css.sectionNote}>Dry runs are numbered with imports, so the numbers of imports have gaps.</p>}
        {open && <ImportList dryRuns />}
      </details>
    </section>
  )
}

function ImportList({ dryRuns }: { dryRuns: boolean }) {
  const imports = useImports(dryRuns)
  const all = imports.data?.pages.flatMap((p) => p.items) ?? []
  return (
    <>
      {imports.isError && all.length === 0 && (
        <ErrorState small {...asSentences(imports.error)} action={<Button onClick={() => void imports.refetch()}>Try again</Button>} />
      )}
      {imports.isPending && (
        <div className={css.bones} aria-busy="true">
          {[0, 1, 2, 3].map((i) => (
            <Skeleton key={i} height={32} />
          ))}
        </div>
      )}
      {imports.isSuccess && all.length === 0 && dryRuns && <p className={css.sectionNote}>There was none. A dry run stores nothing and tells what an import would do.</p>}
      {imports.isSuccess && all.length === 0 && !dryRuns && (
        <EmptyState small title="Nothing has been imported yet">
          Start with the lines, then the splice list, then the readings of a survey.
        </EmptyState>
      )}
      {all.length > 0 && (
        <DataTable caption={dryRuns ? 'Dry runs' : 'Past imports'} className={css.pastTable}>
          <thead>
            <tr>
              <th scope="col">File</th>
              <th scope="col">State</th>
              <th scope="col" className={num}>
                Rows
              </th>
              <th scope="col" className={num}>
                Not read
              </th>
              <th scope="col" className={num}>
                Placed
              </th>
              <th scope="col" className={num}>
                To review
              </th>
              <th scope="col">When</th>
              <th scope="col">Who</th>
              <th scope="col">
                <span className="visually-hidden">Actions</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {all.map((i) => (
              <PastImport key={i.id} status={i} seenAtMs={imports.dataUpdatedAt} />
            ))}
          </tbody>
        </DataTable>
      )}
      {imports.hasNextPage && (
        <Button onClick={() => void imports.fetchNextPage()} busy={imports.isFetchingNextPage}>
          {dryRuns ? 'Show older dry runs' : 'Show older imports'}
        </Button>
      )}
    </>
  )
}

function PastImport({ status, seenAtMs }: { status: ImportStatus; seenAtMs: number }) {
  const zone = useTimeZone()
  const local = useLocalText()
  const { report } = status
  const urgent = status.state === 'done' && !status.dry_run ? (report?.urgent.length ?? 0) : 0
  const figure = (n: number | undefined) => (n === undefined ? '' : count(n))
  const gone = status.state === 'undone' || status.state === 'cancelled' || status.dry_run
  return (
    <tr className={gone ? css.gone : undefined}>
      <th scope="row">
        <Link href={`/intake/${status.id}`} className={css.fileLink}>
          {status.file_name}
        </Link>
        <div className={css.fileKind}>
          {kindLabel(status.kind)}
          {!isOfSurvey(status) || status.survey === null ? '' : `, ${status.survey}`}
        </div>
      </th>
      <td data-label="State" className={css.stateCell}>
        {isUnderWay(status.state) ? <ImportProgress status={status} seenAtMs={seenAtMs} /> : local(stateWords(status))}
        {urgent > 0 && <div className={css.alarmWord}>{urgent} urgent or critical</div>}
        {status.failure !== null && <div className={css.failure}>{status.failure}</div>}
      </td>
      <td className={num} data-label="Rows">
        {figure(report?.rows)}
      </td>
      <td className={num} data-label="Not read">
        {report && report.rejected > 0 ? (
          <Link href={`/intake/${status.id}?show=rejected`} className={css.figureLink} aria-label={`${many(report.rejected, 'row')} of ${status.file_name} not read: show`}>
            {count(report.rejected)}
          </Link>
        ) : (
          figure(report?.rejected)
        )}
      </td>
      <td className={num} data-label="Placed">
        {report?.kind === 'readings' ? figure(report.placed) : ''}
      </td>
      <td className={num} data-label="To review">
        {report?.kind === 'readings' ? figure(report.review) : ''}
      </td>
      <td className={css.when} data-label="When">
        {formatDateTime(Date.parse(status.created_at), zone)}
      </td>
      <td data-label="Who" className={css.who}>
        {status.actor}
      </td>
      <td className={css.rowActions}>
        {status.state === 'done' && !status.dry_run && report && (
          <UndoImport status={status} report={report} size="small" variant="quiet" />
        )}
      </td>
    </tr>
  )
}
