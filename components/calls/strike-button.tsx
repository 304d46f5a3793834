'use client'
import { useState } from 'react'
import { Button } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import { DialogForm } from '@/components/ui/dialog-form'
import { Field } from '@/components/ui/field'
import { keepOwnName, ownName } from '@/components/ui/own-name'
import type { CallEntryJson } from '@/lib/contract/calls'
import { useStrikeCall } from './use-calls'
import { whoText } from './words'

/** A wrong entry is struck with a reason; nothing takes it out of the log. */
export function StrikeButton({ entry }: { entry: CallEntryJson }) {
  const [open, setOpen] = useState(false)
  return (
    <Dialog
      open={open} onOpenChange={setOpen} title="Strike this entry"
      trigger={<Button size="small" variant="quiet" aria-label={`Strike: ${whoText(entry)}`}>Strike</Button>}
      description={`${whoText(entry)}, of ${entry.splice ?? 'a place not settled'}. It stays in the log, struck through with the reason.${entry.told_control_room ? ' What it told the control room waits for a call again.' : ''}`}>
      {open && <StrikeForm id={entry.id} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}

function StrikeForm({ id, onDone }: { id: number; onDone(): void }) {
  const strike = useStrikeCall(id)
  const [by, setBy] = useState(ownName)
  const [why, setWhy] = useState('')
  const [tried, setTried] = useState(false)
  const missing = (text: string) => (tried && text.trim() === '' ? 'This is needed.' : undefined)
  return (
    <DialogForm
      verb="Strike it"
      busy={strike.isPending}
      failed={strike.error}
      onSubmit={() => {
        setTried(true)
        if (by.trim() === '' || why.trim() === '') return
        keepOwnName(by)
        strike.mutate({ struck_by: by.trim(), why: why.trim() }, { onSuccess: onDone })
      }}>
      <Field label="Struck by" hint="By name." required maxLength={200} autoComplete="name" value={by} onChange={(e) => setBy(e.target.value)} error={missing(by)} />
      <Field label="Why" hint="What is wrong with the entry." required maxLength={2000} value={why} onChange={(e) => setWhy(e.target.value)} error={missing(why)} />
    </DialogForm>
  )
}
