'use client'
import { useRef, useState } from 'react'
import { useMutation } from '@tanstack/react-query'
import { Button } from '@/components/ui/button'
import { Choice } from '@/components/ui/choice'
import { Dialog, DialogClose } from '@/components/ui/dialog'
import { DialogForm } from '@/components/ui/dialog-form'
import { fetchJson, RequestFailed, sending } from '@/components/ui/fetch-json'
import { Field, TextArea } from '@/components/ui/field'
import css from '@/components/ui/sheet.module.css'
import { useToast } from '@/components/ui/toast'
import { useWritten } from '@/components/ui/use-written'
import { CLASS_WORDS } from '@/lib/condition/words'
import { spliceDetail, type SpliceDetail } from '@/lib/contract/contract'
import type { ContradictionCause } from '@/lib/contract/decision'
import { CAUSES, decisionSentences } from './decision-words'

type Decided = Pick<SpliceDetail, 'id' | 'splice' | 'class' | 'measured_class' | 'assessed_at'>

const CHOICES: readonly { value: ContradictionCause | ''; label: string }[] = [{ value: '', label: 'Choose the cause' }, ...CAUSES]

/** A named engineer says, with a reason, that the finding behind a held class no longer stands. It cannot be taken back, so it is asked for twice. */
export function DecideAsEngineer({ detail }: { detail: Decided }) {
  const [open, setOpen] = useState(false)
  // What she decides on is what she saw when she opened it, not what a later reading made of it.
  const [seen, setSeen] = useState(detail)
  const onOpen = (next: boolean) => {
    if (next) setSeen(detail)
    setOpen(next)
  }
  return (
    <Dialog
      open={open}
      onOpenChange={onOpen}
      trigger={<Button size="small">Decide as engineer</Button>}
      title={`Decide on ${seen.splice} as engineer`}
      description={`Shown ${CLASS_WORDS[seen.class].toLowerCase()}, held. By itself the evidence now says ${CLASS_WORDS[seen.measured_class].toLowerCase()}.`}>
      {open && <DecisionForm seen={seen} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}

function DecisionForm({ seen, onDone }: { seen: Decided; onDone(): void }) {
  const [engineer, setEngineer] = useState('')
  const [cause, setCause] = useState<ContradictionCause | ''>('')
  const [causeText, setCauseText] = useState('')
  const [reason, setReason] = useState('')
  const [asked, setAsked] = useState(false)
  const form = useRef<HTMLFormElement>(null)
  const written = useWritten()
  const toast = useToast()
  const lookAgain = () => {
    onDone()
    written()
    requestAnimationFrame(() => document.getElementById('splice-title')?.focus())
  }
  const decide = useMutation({
    mutationFn: () => fetchJson(`/api/v1/splices/${seen.id}/clear`, spliceDetail, sending('POST', {
      engineer: engineer.trim(), cause, ...cause === 'other' ? { cause_text: causeText.trim() } : {}, reason: reason.trim(),
      ...seen.assessed_at ? { assessed_at: seen.assessed_at } : {},
    })),
    onSuccess: (now) => {
      toast({ title: 'Decision recorded', detail: `${now.splice} is shown ${CLASS_WORDS[now.class].toLowerCase()} now; name, cause and reason stand in its history.` })
      lookAgain()
    },
  })
  const missing = {
    engineer: engineer.trim() === '', cause: cause === '', causeText: cause === 'other' && causeText.trim() === '', reason: reason.trim() === '',
  }
  const submit = () => {
    setAsked(true)
    if (!Object.values(missing).some(Boolean)) decide.mutate()
    // Not before it is drawn: the first field that is at fault is marked by then.
    else requestAnimationFrame(() => form.current?.querySelector<HTMLElement>('[aria-invalid]')?.focus())
  }
  const stale = decide.error instanceof RequestFailed && decide.error.status === 409
  return (
    <DialogForm
      ref={form}
      verb="Record the decision"
      busy={decide.isPending}
      failed={decide.error}
      onSubmit={submit}
      remedy={stale ? <Button size="small" onClick={lookAgain}>Look again</Button> : undefined}
      beside={<DialogClose><Button>Leave it held</Button></DialogClose>}>
      <ul className={css.sentences}>
        {decisionSentences(seen).map((sentence) => <li key={sentence}>{sentence}</li>)}
      </ul>
      <Field
        label="Engineer"
        hint="Who answers for this decision, by name."
        autoComplete="name"
        maxLength={200}
        required
        value={engineer}
        onChange={(e) => setEngineer(e.target.value)}
        error={asked && missing.engineer ? 'A decision needs a name. Enter yours.' : undefined}
      />
      <Choice
        label="What explains the contradiction?"
        value={cause}
        onValue={(chosen) => setCause(chosen)}
        options={CHOICES}
        error={asked && missing.cause ? 'A ratio does not fall by itself. Choose what explains it.' : undefined}
      />
      {cause === 'other' && (
        <Field
          label="Which cause"
          hint="In a few words."
          maxLength={500}
          required
          value={causeText}
          onChange={(e) => setCauseText(e.target.value)}
          error={asked && missing.causeText ? 'Name the cause in a few words.' : undefined}
        />
      )}
      <TextArea
        label="Reason"
        hint="What was done or seen, when and by whom, and why the finding no longer stands."
        maxLength={2000}
        required
        value={reason}
        onChange={(e) => setReason(e.target.value)}
        error={asked && missing.reason ? 'A decision needs a reason. Say why the finding no longer stands.' : undefined}
      />
    </DialogForm>
  )
}
