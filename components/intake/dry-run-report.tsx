'use client'
import { Button, IconButton } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { ErrorState, Skeleton } from '@/components/ui/states'
import { useLocalText } from '@/components/ui/use-local-text'
import { FileFacts } from './file-facts'
import { ImportProgress } from './import-progress'
import { ReportClasses } from './report-classes'
import { ReportFigures } from './report-figures'
import { ReportIssues } from './report-issues'
import { UrgentOpening } from './urgent-opening'
import { useImport } from './use-imports'
import { isUnderWay } from './words'
import css from './report.module.css'

/** What importing would do, found by doing everything but the commit. */
export function DryRunReport({ id, onClose }: { id: number; onClose(): void }) {
  const run = useImport(id)
  const local = useLocalText()
  const status = run.data
  return (
    <section className={css.dryRun} aria-labelledby="dry-run-title">
      <header>
        <h2 id="dry-run-title">Dry run: nothing is kept</h2>
        <IconButton icon="close" label="Close the dry run" size="small" onClick={onClose} />
      </header>
      {run.isError && (
        <ErrorState small {...asSentences(run.error)} action={<Button onClick={() => void run.refetch()}>Try again</Button>} />
      )}
      {run.isPending && <Skeleton height={40} />}
      {status && isUnderWay(status.state) && <ImportProgress status={status} seenAtMs={run.dataUpdatedAt} />}
      {status?.state === 'cancelled' && <ErrorState small title={local('The dry run was cancelled.')} remedy="Start it again." />}
      {status?.state === 'failed' && <ErrorState small title="The dry run stopped." remedy={status.failure ?? 'Try again.'} />}
      {status?.report && (
        <>
          <UrgentOpening readings={status.report.urgent} met={status.report.met_notices} file={status.file_name} dryRun />
          <ReportFigures report={status.report} />
          <ReportClasses report={status.report} dryRun />
          <FileFacts report={status.report} />
          <ReportIssues report={status.report} />
        </>
      )}
    </section>
  )
}
