'use client'
import { useRef, useState } from 'react'
import { useRouter } from 'next/navigation'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { Button } from '@/components/ui/button'
import { Dialog, DialogClose } from '@/components/ui/dialog'
import { asSentences, fetchJson, RequestFailed } from '@/components/ui/fetch-json'
import { Field, TextArea } from '@/components/ui/field'
import css from '@/components/ui/sheet.module.css'
import { ErrorState } from '@/components/ui/states'
import { useToast } from '@/components/ui/toast'
import { CLASS_WORDS } from '@/lib/condition/words'
import { spliceDetail, type SpliceDetail } from '@/lib/contract/contract'
import { decisionSentences } from './decision-words'

type Decided = Pick<SpliceDetail, 'id' | 'splice' | 'class' | 'measured_class' | 'assessed_at'>

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
  const [reason, setReason] = useState('')
  const [asked, setAsked] = useState(false)
  const form = useRef<HTMLFormElement>(null)
  const client = useQueryClient()
  const router = useRouter()
  const toast = useToast()
  const lookAgain = () => {
    onDone()
    void client.invalidateQueries()
    router.refresh()
    requestAnimationFrame(() => document.getElementById('splice-title')?.focus())
  }
  const decide = useMutation({
    mutationFn: () => fetchJson(`/api/v1/splices/${seen.id}/clear`, spliceDetail, {
      method: 'POST', headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ engineer: engineer.trim(), reason: reason.trim(), ...(seen.assessed_at ? { assessed_at: seen.assessed_at } : {}) }),
    }),
    onSuccess: (now) => {
      toast({ title: 'Decision recorded', detail: `${now.splice} is shown ${CLASS_WORDS[now.class].toLowerCase()} now; name and reason stand in its history.` })
      lookAgain()
    },
  })
  const missing = { engineer: engineer.trim() === '', reason: reason.trim() === '' }
  const submit = () => {
    setAsked(true)
    if (missing.engineer || missing.reason) form.current?.querySelector<HTMLElement>(missing.engineer ? 'input' : 'textarea')?.focus()
    else if (!decide.isPending) decide.mutate()
  }
  const stale = decide.error instanceof RequestFailed && decide.error.status === 409
  return (
    <form
      ref={form}
      noValidate
      className={css.form}
      onSubmit={(e) => {
        e.preventDefault()
        submit()
      }}>
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
      <TextArea
        label="Reason"
        hint="What was done or seen, when and by whom, and why the finding no longer stands."
        maxLength={2000}
        required
        value={reason}
        onChange={(e) => setReason(e.target.value)}
        error={asked && missing.reason ? 'A decision needs a reason. Say why the finding no longer stands.' : undefined}
      />
      {decide.isError && (
        <ErrorState small {...asSentences(decide.error)} action={stale ? <Button size="small" onClick={lookAgain}>Look again</Button> : undefined} />
      )}
      <p className={css.row}>
        <Button type="submit" variant="primary" busy={decide.isPending}>Record the decision</Button>
        <DialogClose><Button>Leave it held</Button></DialogClose>
      </p>
    </form>
  )
}
