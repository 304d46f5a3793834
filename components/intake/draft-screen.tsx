'use client'
import { useId, useState } from 'react'
import { useRouter } from 'next/navigation'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { ErrorState, Progress, Skeleton } from '@/components/ui/states'
import { Segmented } from '@/components/ui/tabs'
import { KIND_OPEN, type ImportPreview, type MappingJson } from '@/lib/contract/intake'
import { effectiveMapping, surveyOf, whyNotImport, type Draft } from './draft'
import { DraftFields } from './draft-fields'
import { DraftNotes, ReadAsBefore } from './draft-notes'
import { DryRunReport } from './dry-run-report'
import { drawnOf } from './drawn'
import { FilePicker } from './file-picker'
import { MappingTable } from './mapping-table'
import { openQuestions } from './open-questions'
import { OpenQuestions } from './open-questions-fields'
import { PreviewMap } from './preview-map'
import { PreviewRows } from './preview-rows'
import { PreviewUrgent } from './preview-urgent'
import type { DraftState } from './use-draft'
import { useImport } from './use-imports'
import { useSend } from './use-send'
import { fileSize } from './words'
import css from './draft.module.css'

/** The file on the table: what it is, what its columns mean, what its rows become; dry run and import. */
export function DraftScreen({ state }: { state: DraftState }) {
  const { draft, preview, mapping, refusal } = state
  if (draft === null) return null
  const readable = preview !== undefined && mapping !== null
  return (
    <div className={css.draft}>
      <DraftHead draft={draft} preview={preview} state={state} ready={readable && !refusal} />
      {refusal && readable && (
        <ErrorState small {...refusal} action={state.canRetry && <Button onClick={state.retry}>Try again</Button>} />
      )}
      {refusal && !readable && (
        <ErrorState
          {...refusal}
          action={
            <>
              {state.canRetry && (
                <Button variant="primary" onClick={state.retry}>
                  Try again
                </Button>
              )}
              <FilePicker variant={state.canRetry ? 'default' : 'primary'} onFile={state.take}>
                Choose another file
              </FilePicker>
              <Button onClick={state.clear}>Back to intake</Button>
            </>
          }
        />
      )}
      {!refusal && !readable && <DraftBones />}
      {readable && <PreviewUrgent rows={preview.rows} />}
      {readable && <DraftBody state={state} preview={preview} mapping={mapping} draft={draft} />}
    </div>
  )
}

function DraftHead({
  draft,
  preview,
  state,
  ready,
}: {
  draft: Draft
  preview: ImportPreview | undefined
  state: DraftState
  ready: boolean
}) {
  const router = useRouter()
  const { state: sending, send, stop } = useSend()
  const [dryRunId, setDryRunId] = useState<number | null>(null)
  const start = async (dryRun: boolean) => {
    if (preview === undefined) return
    setDryRunId(null)
    const mapping = effectiveMapping(draft, preview)
    const outcome = await send({
      file: draft.file,
      kind: preview.kind,
      mapping: JSON.stringify(mapping),
      survey: mapping.survey ?? '',
      dryRun,
    })
    if (outcome === null) return
    if (dryRun) setDryRunId(outcome.status.id)
    else router.push(`/intake/${outcome.status.id}${outcome.heldAlready ? '?again=1' : ''}`)
  }
  const busy = sending.step === 'sending'
  // A dry run has looked at every row, and knows better than the first ones do.
  const ran = useImport(dryRunId ?? 0, dryRunId !== null).data
  const whyNot = preview === undefined || (ran?.report?.read ?? 0) > 0 ? null : whyNotImport(preview.rows)
  const whyNotId = useId()
  return (
    <>
      <header className={css.head}>
        <div className={css.title}>
          <h1>{draft.file.name}</h1>
          <p>{[fileSize(draft.file.size), preview?.format].filter(Boolean).join(' · ')}</p>
          {preview !== undefined && <ReadAsBefore state={state} preview={preview} />}
          {preview !== undefined && <DraftNotes notes={preview.notes} />}
        </div>
        <div className={css.actions}>
          <Button variant="quiet" onClick={state.clear} disabled={busy}>
            Cancel
          </Button>
          {ready && (
            <Button onClick={() => void start(true)} busy={busy && sending.dryRun} disabled={busy || state.reading}>
              Dry run
            </Button>
          )}
          {ready && (
            <Button variant="primary" onClick={() => void start(false)} busy={busy && !sending.dryRun} disabled={busy || state.reading || whyNot !== null} aria-describedby={whyNot === null ? undefined : whyNotId}>
              Import
            </Button>
          )}
          {ready && whyNot !== null && (
            <p id={whyNotId} className={css.whyNot}>
              {whyNot}
            </p>
          )}
        </div>
      </header>
      {sending.step === 'sending' && (
        <div className={css.band}>
          <Progress
            label={
              sending.progress.sentBytes < sending.progress.totalBytes
                ? `Sending ${draft.file.name}`
                : 'Sent, the server is taking it over'
            }
            value={sending.progress.sentBytes / Math.max(1, sending.progress.totalBytes)}
            detail={`${fileSize(sending.progress.sentBytes)} of ${fileSize(sending.progress.totalBytes)}`}
          />
          <Button size="small" onClick={stop}>
            Stop sending
          </Button>
        </div>
      )}
      {sending.step === 'failed' && (
        <ErrorState
          small
          {...asSentences(sending.error)}
          action={<Button onClick={() => void start(sending.dryRun)}>{sending.dryRun ? 'Run dry again' : 'Send again'}</Button>}
        />
      )}
      {dryRunId !== null && <DryRunReport id={dryRunId} onClose={() => setDryRunId(null)} />}
    </>
  )
}

function DraftBody({
  state,
  preview,
  mapping,
  draft,
}: {
  state: DraftState
  preview: ImportPreview
  mapping: MappingJson
  draft: Draft
}) {
  const [part, setPart] = useState<'columns' | 'rows'>('columns')
  const [row, setRow] = useState<number | null>(null)
  const unread = preview.refusal !== undefined
  const isOpen = preview.refusal?.code === KIND_OPEN && draft.kind === null
  const located = preview.rows.filter((r) => drawnOf(r) !== null)
  const shown = preview.rows.find((r) => r.row === row) ?? located[0] ?? preview.rows[0]
  return (
    <div className={css.body} data-part={part} aria-busy={state.reading}>
      <div className={css.parts}>
        <Segmented<'columns' | 'rows'>
          label="Part of the preview"
          value={part}
          onValueChange={setPart}
          options={[
            { value: 'columns', label: 'Columns' },
            { value: 'rows', label: 'Rows' },
          ]}
        />
      </div>
      <div className={css.left}>
        <DraftFields
          kind={draft.kind ?? preview.kind}
          isOpen={isOpen}
          mapping={mapping}
          survey={surveyOf(draft, mapping)}
          onKind={state.setKind}
          onSurvey={state.setSurvey}
          onTimeZone={(zone) => state.setSetting('timeZone', zone === '' ? undefined : zone)}
        />
        {!isOpen && <OpenQuestions kind={preview.kind} mapping={mapping} questions={openQuestions(preview, mapping)} onSetting={state.setSetting} onAlways={state.setAlways} />}
        {!isOpen && <MappingTable kind={preview.kind} columns={preview.columns} mapping={mapping} onColumn={state.setColumn} />}
      </div>
      <div className={css.right}>
        {shown && located.length > 0 && <PreviewMap row={shown} />}
        {located.length === 0 && preview.rows.length > 0 && !unread && (
          <p className={css.nothingDrawn}>Nothing of these rows can be drawn: they have no position, and name no structures of a line that is known.</p>
        )}
        <PreviewRows preview={preview} unread={unread} mapping={mapping} selected={shown?.row ?? null} onSelect={setRow} />
      </div>
    </div>
  )
}

function DraftBones() {
  return (
    <div className={css.body} data-part="columns" aria-busy="true">
      <div className={css.left}>
        {[0, 1, 2, 3, 4, 5, 6].map((i) => (
          <Skeleton key={i} height={30} className={css.bone} />
        ))}
      </div>
      <div className={css.right}>
        <Skeleton height={220} />
      </div>
    </div>
  )
}
