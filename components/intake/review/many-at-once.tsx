'use client'
import { useState } from 'react'
import { useJob } from '@/components/settings/use-policy'
import { Button } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import { asSentences } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import { NativeSelect } from '@/components/ui/native-select'
import { useTimeZone } from '@/components/ui/preferences'
import { Segmented } from '@/components/ui/tabs'
import type { ReviewCause } from '@/lib/contract/contract'
import type { ReviewPage } from '@/lib/contract/intake'
import type { ReviewActKind, ReviewActPreview, ReviewChoice } from '@/lib/contract/review-acts'
import { reviewCauseText } from '@/lib/geo/review-cause'
import { formatDateTime } from '@/lib/units/time'
import { count } from '../words'
import { actText, doesText, staysText } from './act-words'
import { useActing, useActPreview, useReviewActs } from './use-review-acts'
import css from './many-at-once.module.css'

const ALL = 'all'
/** Of more circuits the rest is one line. */
const CIRCUITS_SHOWN = 12

/** Settles many waiting readings at once: which, what becomes of them, and why some stay, before anybody says so. */
export function ManyAtOnce({ causes, cause, marked, onDone }: {
  causes: ReviewPage['causes']
  /** That the queue shows. */
  cause: ReviewCause | null
  marked: readonly number[]
  onDone(): void
}) {
  const [open, setOpen] = useState(false)
  return (
    <Dialog
      open={open}
      onOpenChange={setOpen}
      wide
      trigger={<Button size="small">{marked.length === 0 ? 'Many at once' : `Many at once, ${count(marked.length)} marked`}</Button>}
      title="Settle many readings at once"
      description="It is done as one and can be taken back as one. Readings that are urgent or critical by their own numbers always stay."
    >
      {open && <ActForm causes={causes} shownCause={cause} marked={marked} onDone={onDone} />}
    </Dialog>
  )
}

function ActForm({ causes, shownCause, marked, onDone }: { causes: ReviewPage['causes']; shownCause: ReviewCause | null; marked: readonly number[]; onDone(): void }) {
  const [which, setWhich] = useState<'marked' | 'all'>(marked.length > 0 ? 'marked' : 'all')
  const [cause, setCause] = useState<ReviewCause | null>(shownCause)
  const [importId, setImportId] = useState<number | null>(null)
  const [action, setAction] = useState<ReviewActKind>('accept-best')
  const [reason, setReason] = useState('')
  const [jobId, setJobId] = useState<number | null>(null)
  const job = useJob(jobId)
  const busy = jobId !== null && job.data?.state !== 'done' && job.data?.state !== 'failed'
  const choice: ReviewChoice = {
    ...(cause === null ? {} : { cause }), ...(importId === null ? {} : { import_id: importId }), ...(which === 'marked' ? { reading_ids: [...marked] } : {}),
  }
  const preview = useActPreview(action, choice, !busy)
  const acting = useActing((id) => {
    setJobId(id)
    setReason('')
    setWhich('all')
    onDone()
  })
  const would = preview.data
  const lacksReason = action === 'set-aside' && reason.trim() === ''
  const begin = () => {
    if (!would || would.settles === 0 || lacksReason) return
    acting.mutate({ begin: action === 'set-aside' ? { action, choice, reason: reason.trim(), expected: would.settles } : { action, choice, expected: would.settles } })
  }
  return (
    <form
      className={css.form}
      onSubmit={(e) => {
        e.preventDefault()
        begin()
      }}
    >
      <div className={css.choice}>
        {marked.length > 0 && (
          <Segmented<'marked' | 'all'>
            label="Which readings" size="small" value={which} onValueChange={setWhich}
            options={[{ value: 'marked', label: `Marked ${count(marked.length)}` }, { value: 'all', label: 'All' }]}
          />
        )}
        <NativeSelect label="Import" value={importId ?? ALL} onChange={(e) => setImportId(e.target.value === ALL ? null : Number(e.target.value))}>
          <option value={ALL}>Of all imports</option>
          {would?.imports.map((one) => (
            <option key={one.import_id} value={one.import_id}>
              {one.file_name}, import {one.import_id} ({count(one.count)})
            </option>
          ))}
        </NativeSelect>
        <NativeSelect label="Cause" value={cause ?? ALL} onChange={(e) => setCause(causes.find((c) => c.cause === e.target.value)?.cause ?? null)}>
          <option value={ALL}>For all causes</option>
          {causes.map((c) => (
            <option key={c.cause} value={c.cause}>
              {reviewCauseText(c.cause)} ({count(c.count)})
            </option>
          ))}
        </NativeSelect>
      </div>
      <Segmented<ReviewActKind>
        label="What becomes of them" size="small" value={action} onValueChange={setAction}
        options={[{ value: 'accept-best', label: 'Best candidate of each' }, { value: 'set-aside', label: 'Set aside' }]}
      />
      <Would action={action} would={would} stale={preview.isPlaceholderData || preview.isFetching} error={preview.error} />
      {action === 'set-aside' && (
        <Field label="Reason" value={reason} maxLength={400} onChange={(e) => setReason(e.target.value)} hint="It stands with every one of them." />
      )}
      {acting.isError && <p className={css.error} role="alert">{asSentences(acting.error).title} {asSentences(acting.error).remedy}</p>}
      <div className={css.foot}>
        <p role="status" className={css.note}>
          {busy ? `At work${job.data?.progress ? `: ${count(job.data.progress.done)} of ${count(job.data.progress.total ?? job.data.progress.done)}` : ''}. You can close this; it goes on.` : ''}
          {job.data?.state === 'failed' && `Nothing was changed: ${job.data.failure ?? 'it came to nothing.'}`}
        </p>
        <Button type="submit" variant="primary" busy={acting.isPending || busy} disabled={!would || would.settles === 0 || lacksReason || preview.isPlaceholderData || preview.isFetching}>
          {action === 'set-aside' ? `Set ${count(would?.settles ?? 0)} aside` : `Place ${count(would?.settles ?? 0)}`}
        </Button>
      </div>
      <Acts busy={busy} onUndo={(id) => acting.mutate({ undo: id })} />
    </form>
  )
}

function Would({ action, would, stale, error }: { action: ReviewActKind; would: ReviewActPreview | undefined; stale: boolean; error: Error | null }) {
  if (error) return <p className={css.error} role="alert">{asSentences(error).title} {asSentences(error).remedy}</p>
  if (!would) return <p className={css.note}>Looking through the readings…</p>
  const rest = would.circuits.slice(CIRCUITS_SHOWN)
  const stays = staysText(would)
  return (
    <div className={css.would} aria-busy={stale} role="region" aria-label="What it would do">
      <p><b>{doesText(action, would)}</b></p>
      {would.circuits.length > 0 && (
        <ul>
          {would.circuits.slice(0, CIRCUITS_SHOWN).map((one) => (
            <li key={one.circuit_id}><span>{one.circuit}</span><b>{count(one.count)}</b></li>
          ))}
          {rest.length > 0 && <li><span>{count(rest.length)} more circuits</span><b>{count(rest.reduce((sum, one) => sum + one.count, 0))}</b></li>}
        </ul>
      )}
      {stays !== '' && <p>{stays}</p>}
    </div>
  )
}

/** What was done so before, with the way back. */
function Acts({ busy, onUndo }: { busy: boolean; onUndo(id: number): void }) {
  const acts = useReviewActs(true)
  const zone = useTimeZone()
  const items = acts.data?.items.slice(0, 5) ?? []
  if (items.length === 0) return null
  return (
    <section className={css.acts} aria-label="Done before">
      <h3>Done before</h3>
      <ul>
        {items.map((act) => (
          <li key={act.id}>
            <span>
              {actText(act)}
              <small>{act.actor}, {formatDateTime(Date.parse(act.created_at), zone)}</small>
            </span>
            {act.done_at !== null && act.undone_at === null && (
              <Button size="small" disabled={busy} onClick={() => onUndo(act.id)}>Take back</Button>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
