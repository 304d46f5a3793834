'use client'
import Link from 'next/link'
import { useSearchParams } from 'next/navigation'
import { useEffect, useRef } from 'react'
import { useQueryClient } from '@tanstack/react-query'
import { Button } from '@/components/ui/button'
import { RequestFailed, asSentences } from '@/components/ui/fetch-json'
import { Icon } from '@/components/ui/icons'
import { useTimeZone } from '@/components/ui/preferences'
import { ErrorState, Skeleton } from '@/components/ui/states'
import { useToast } from '@/components/ui/toast'
import { useLocalText } from '@/components/ui/use-local-text'
import type { ImportStatus } from '@/lib/contract/contract'
import { formatDateTime } from '@/lib/units/time'
import { CancelImport } from './cancel-import'
import { FileFacts } from './file-facts'
import { ImportProgress } from './import-progress'
import { ReportClasses } from './report-classes'
import { ReportFigures } from './report-figures'
import { ReportIssues } from './report-issues'
import { UndoImport } from './undo-import'
import { UrgentOpening } from './urgent-opening'
import { refreshAfterImport, useImport } from './use-imports'
import { count, fileSize, isOfSurvey, isUnderWay, kindLabel, many, stateWords } from './words'
import css from './report.module.css'

/** One import: on its way, then its report. The address can be reopened at any time. */
export function ReportScreen({ id }: { id: number }) {
  const asked = useImport(id)
  const local = useLocalText()
  const again = useSearchParams().get('again') === '1'
  useTellWhenDone(asked.data)
  const status = asked.data
  if (asked.isError && !status) {
    return (
      <ErrorState
        {...asSentences(asked.error)}
        action={
          <>
            {!isMissing(asked.error) && <Button onClick={() => void asked.refetch()}>Try again</Button>}
            <Button asChild>
              <Link href="/intake">All imports</Link>
            </Button>
          </>
        }
      />
    )
  }
  if (!status)
    return (
      <div className={css.report} aria-busy="true">
        <Skeleton width={280} height={24} />
        <Skeleton height={80} />
        <Skeleton height={160} />
      </div>
    )
  return (
    <div className={css.report}>
      {status.report && !status.undone_at && (
        <UrgentOpening readings={status.report.urgent} met={status.report.met_notices} file={status.file_name} dryRun={status.dry_run} again={again} />
      )}
      <Head status={status} />
      {again && status.state !== 'failed' && (
        <p className={css.again} role="status">
          <Icon name="info" />
          This file was imported before, with the same settings: nothing was imported again. This is the report from then.
        </p>
      )}
      {status.state === 'undone' && (
        <p className={css.again} role="status">
          <Icon name="undo" />
          This import was undone. Its readings stay on file and count for nothing. The report below is from when it was imported.
        </p>
      )}
      {isUnderWay(status.state) && (
        <div className={css.running}>
          <ImportProgress status={status} seenAtMs={asked.dataUpdatedAt} />
          <p>
            <span>This goes on when you close the page.</span>
            {status.state !== 'receiving' && <CancelImport status={status} />}
          </p>
        </div>
      )}
      {status.state === 'cancelled' && (
        <p className={css.again} role="status">
          <Icon name="close" />
          {local('This import was cancelled.')} Nothing of it was stored. Import {status.file_name} again when it is wanted.
        </p>
      )}
      {status.state === 'failed' && (
        <ErrorState small title="The import stopped and nothing was kept." remedy={status.failure ?? 'Send the file again.'} />
      )}
      {status.report && (
        <>
          <ReportFigures report={status.report} />
          {status.state === 'done' && !status.dry_run && status.report.review > 0 && (
            <p className={css.next}>
              {many(status.report.review, 'reading waits', 'readings wait')} for somebody to say where{' '}
              {status.report.review === 1 ? 'it belongs' : 'they belong'}.
              <Button asChild variant="primary">
                <Link href="/intake/review">Open the review queue</Link>
              </Button>
            </p>
          )}
          <ReportClasses report={status.report} dryRun={status.dry_run} />
          <FileFacts report={status.report} />
          <ReportIssues report={status.report} />
        </>
      )}
    </div>
  )
}

const isMissing = (error: Error): boolean => error instanceof RequestFailed && error.status === 404

function Head({ status }: { status: ImportStatus }) {
  const zone = useTimeZone()
  const local = useLocalText()
  const facts = [
    kindLabel(status.kind),
    !isOfSurvey(status) || status.survey === null ? null : `survey ${status.survey}`,
    fileSize(status.size_bytes),
    `by ${status.actor}`,
    formatDateTime(Date.parse(status.created_at), zone),
  ]
  return (
    <header className={css.head}>
      <div>
        <p className={css.crumb}>
          <Link href="/intake">Intake</Link> / {status.dry_run ? 'dry run' : 'import'} {status.id}
        </p>
        <h1>{status.file_name}</h1>
        <p className={css.facts}>
          <b>{local(stateWords(status))}</b> · {facts.filter((f) => f !== null).join(' · ')}
        </p>
      </div>
      {status.state === 'done' && !status.dry_run && status.report && <UndoImport status={status} report={status.report} />}
    </header>
  )
}

/** Somebody who watched it finish is told so, and the rest of the product is asked again. */
function useTellWhenDone(status: ImportStatus | undefined) {
  const toast = useToast()
  const client = useQueryClient()
  const watched = useRef(false)
  useEffect(() => {
    if (!status) return
    if (isUnderWay(status.state)) watched.current = true
    else if (watched.current) {
      watched.current = false
      refreshAfterImport(client)
      if (status.state === 'done' && status.report)
        toast({
          title: `${status.file_name} imported`,
          detail: `${count(status.report.read)} of ${many(status.report.rows, 'row')} read.`,
        })
    }
  }, [status, client, toast])
}
