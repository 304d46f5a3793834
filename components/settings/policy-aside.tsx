'use client'
import { useRef, useState } from 'react'
import { AdvisedChanges } from './advised-changes'
import { ClassChanges } from '@/components/splice/class-changes'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { Field, TextArea } from '@/components/ui/field'
import { EmptyState, ErrorState, Skeleton } from '@/components/ui/states'
import { useToast } from '@/components/ui/toast'
import type { PolicyPreviewJson, PolicyVersionJson } from '@/lib/contract/settings'
import type { PolicyChange, PolicyValues } from './policy-draft'
import { usePolicyPreview, useSavePolicy } from './use-policy'
import css from './policy.module.css'

/** What the change would reclassify, who it is after, and the button that makes it a version. */
export function PolicyAside({
  inForce,
  values,
  changes,
  faults,
  onReset,
  onSaved,
}: {
  inForce: PolicyVersionJson
  values: PolicyValues
  changes: PolicyChange[]
  faults: ReadonlyMap<string, string>
  onReset(): void
  onSaved(jobId: number): void
}) {
  const toast = useToast()
  const [procedureNo, setProcedureNo] = useState(inForce.procedure_no ?? '')
  const [note, setNote] = useState('')
  const [setBy, setSetBy] = useState('')
  const [asked, setAsked] = useState(false)
  const form = useRef<HTMLElement>(null)
  const save = useSavePolicy((jobId, version) => {
    toast({ title: `Policy version ${version} is in force` })
    onSaved(jobId)
  })
  const renamed = procedureNo.trim() !== (inForce.procedure_no ?? '')
  const canSave = faults.size === 0 && (changes.length > 0 || renamed)
  const differs = changes.length > 0
  const missing = { setBy: differs && setBy.trim() === '', note: differs && note.trim() === '' }
  const submit = () => {
    setAsked(true)
    if (missing.setBy || missing.note) requestAnimationFrame(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus())
    else save.mutate({ values: { ...values, procedureNo: procedureNo.trim() }, procedure_no: procedureNo.trim(), note: note.trim(), set_by: setBy.trim() })
  }
  return (
    <aside id="change" className={css.aside} aria-label="Change of policy">
      <section>
        <h2>What this changes</h2>
        {changes.length === 0 && (
          <p className={css.quiet}>
            Nothing yet. Version {inForce.version} is in force. Change a value to see which splices it would reclassify.
          </p>
        )}
        {changes.length > 0 && (
          <ul className={css.changes}>
            {changes.map((c) => (
              <li key={c.path}>
                <span>{c.label}</span>
                <span>
                  <s>{c.from}</s> {c.to}
                </span>
              </li>
            ))}
          </ul>
        )}
      </section>
      {changes.length > 0 && <Preview values={faults.size === 0 ? values : null} />}
      <section className={css.save} ref={form}>
        <Field
          label="Set by"
          optional={!differs}
          autoComplete="name"
          value={setBy}
          maxLength={100}
          onChange={(e) => setSetBy(e.target.value)}
          hint="The person who stands behind these values."
          error={asked && missing.setBy ? 'Classes and advised currents follow these values: write who stands behind them.' : undefined}
        />
        <Field
          label="Procedure number"
          optional
          value={procedureNo}
          maxLength={80}
          onChange={(e) => setProcedureNo(e.target.value)}
          hint="Your procedure that sets these values. It stands on every report."
        />
        {differs && procedureNo.trim() === '' && (
          <p className={css.quiet} role="note">
            No procedure number: nothing your utility approved stands behind these values.
          </p>
        )}
        <TextArea
          label="Reason"
          optional={!differs}
          rows={2}
          value={note}
          maxLength={400}
          onChange={(e) => setNote(e.target.value)}
          hint="Why it changes."
          error={asked && missing.note ? 'Write why the values change.' : undefined}
        />
        {save.isError && <ErrorState small {...asSentences(save.error)} />}
        <div className={css.saveButtons}>
          <Button disabled={changes.length === 0} onClick={onReset}>
            Discard
          </Button>
          <Button variant="primary" disabled={!canSave} busy={save.isPending} onClick={submit}>
            Save as new version
          </Button>
        </div>
      </section>
    </aside>
  )
}

function Preview({ values }: { values: PolicyValues | null }) {
  const preview = usePolicyPreview(values)
  if (values === null) return <p className={css.groupFault}>Correct the marked values to see what would change.</p>
  if (preview.isError)
    return (
      <ErrorState
        small
        {...asSentences(preview.error)}
        action={
          <Button size="small" onClick={() => void preview.refetch()}>
            Try again
          </Button>
        }
      />
    )
  if (!preview.data)
    return (
      <section aria-busy="true">
        <Skeleton height={14} width="60%" />
        <Skeleton height={60} />
      </section>
    )
  return <Reclassified preview={preview.data} stale={preview.isFetching} />
}

/** No policy lowers urgent or critical by itself, which must not look as if it changed nothing. */
function HeldOnly({ count }: { count: number }) {
  if (count === 0) return null
  return (
    <strong role="note">
      {count === 1 ? 'One splice stays' : `${count.toLocaleString('en-US')} splices stay`} urgent or critical only because no policy lowers a class: by
      these values {count === 1 ? 'its readings say' : 'their readings say'} less, and new readings like them would not be announced.
    </strong>
  )
}

function Reclassified({ preview, stale }: { preview: PolicyPreviewJson; stale: boolean }) {
  if (preview.total === 0)
    return (
      <section aria-busy={stale} className={css.reclassified}>
        <EmptyState small title="No splice changes its class">
          On what has been measured so far. <HeldOnly count={preview.held_only} />
        </EmptyState>
        <AdvisedChanges of={preview.advised} />
      </section>
    )
  return (
    <section aria-busy={stale} className={css.reclassified}>
      <p className={css.total} role="status">
        <b>{preview.total.toLocaleString('en-US')}</b> {preview.total === 1 ? 'splice changes its class' : 'splices change their class'}
      </p>
      <HeldOnly count={preview.held_only} />
      <ClassChanges changes={preview} words={{ from: 'Now', to: 'Then' }} />
      <AdvisedChanges of={preview.advised} />
    </section>
  )
}
