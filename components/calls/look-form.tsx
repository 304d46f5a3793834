'use client'
import { useState } from 'react'
import { DialogForm } from '@/components/ui/dialog-form'
import { Field, TextArea } from '@/components/ui/field'
import { MomentField } from '@/components/ui/moment-field'
import { keepOwnName, ownName } from '@/components/ui/own-name'
import { useTimeZone } from '@/components/ui/preferences'
import { useToast } from '@/components/ui/toast'
import { useNow } from '@/components/ui/use-now'
import { useRecordCall } from './use-calls'

/** Who looked, when, and what was seen. */
export function LookForm({ spliceId, splice, onDone }: { spliceId: number; splice: string; onDone(): void }) {
  const timeZone = useTimeZone()
  const toast = useToast()
  const record = useRecordCall(spliceId)
  const nowMs = useNow()
  const [opened] = useState(() => new Date())
  const [at, setAt] = useState<Date | null>(opened)
  const [by, setBy] = useState(ownName)
  const [note, setNote] = useState('')
  const [tried, setTried] = useState(false)
  const noName = by.trim() === ''
  const wrongTime = at === null ? 'Say when it was.' : at.getTime() > nowMs + 60_000 ? 'This is still to come. Say when it was.' : undefined
  const send = () => {
    setTried(true)
    if (at === null || wrongTime !== undefined || noName) return
    keepOwnName(by)
    record.mutate({ kind: 'look', by: by.trim(), ...at !== opened && { at: at.toISOString() }, ...note.trim() !== '' && { note: note.trim() } }, {
      onSuccess: () => {
        toast({ title: 'Look noted', detail: `${splice} comes back at the next peak-load period.` })
        onDone()
      },
    })
  }
  return (
    <DialogForm verb="Note the look" busy={record.isPending} failed={record.error} onSubmit={send}>
      <Field label="Who looked" required maxLength={200} autoComplete="name" value={by} onChange={(e) => setBy(e.target.value)} error={tried && noName ? 'Name who looked.' : undefined} />
      <MomentField label="When" required hint={`By the clock of ${timeZone.replace('_', ' ')}.`} value={at} onValue={setAt} timeZone={timeZone} error={tried ? wrongTime : undefined} />
      <TextArea label="What was seen" optional rows={2} maxLength={2000} hint="Load, temperature over the conductor, anything new." value={note} onChange={(e) => setNote(e.target.value)} />
    </DialogForm>
  )
}
