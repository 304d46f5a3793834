'use client'
import { useState } from 'react'
import { Button } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import { DialogForm } from '@/components/ui/dialog-form'
import { asSentences } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import { useTimeZone } from '@/components/ui/preferences'
import { useToast } from '@/components/ui/toast'
import type { UrgentReading } from '@/lib/contract/urgent'
import { formatTime } from '@/lib/units/time'
import { withFullStop } from '@/lib/units/full-stop'
import { lastAt, TOLD, toldText } from './urgent-words'
import { useAcknowledge, type Of } from './use-acknowledge'

interface Asked {
  of: Of
  class: UrgentReading['class']
  /** What it is about, as it was read out. */
  about: string
}

/** The server takes a slip back for a minute. */
const UNDO_MS = 45_000

/** 'Control room told': asks whom and when, and offers to take it back. */
export function ToldButton({ className, ...asked }: Asked & { className?: string }) {
  const [open, setOpen] = useState(false)
  return (
    <Dialog
      open={open}
      onOpenChange={setOpen}
      trigger={<Button size="small" className={className}>{TOLD}</Button>}
      title={TOLD}
      description={asked.about}>
      {open && <ToldForm {...asked} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}

function ToldForm({ of, class: found, about, onDone }: Asked & { onDone(): void }) {
  const timeZone = useTimeZone()
  const toast = useToast()
  const { tell, takeBack } = useAcknowledge()
  const [openedMs] = useState(() => Date.now())
  const [clockNow, zoneName] = splitTime(formatTime(openedMs, timeZone))
  const [whom, setWhom] = useState('')
  const [clock, setClock] = useState(clockNow)
  const [tried, setTried] = useState(false)
  const needsName = found === 'critical'
  const nameMissing = needsName && whom.trim() === ''
  const atMs = clock === clockNow ? openedMs : lastAt(clock, openedMs, timeZone)
  // Awaited, not by callbacks: those stay out once what asked has gone from the screen, as it does when it is told.
  const onUndo = async () => {
    try {
      await takeBack.mutateAsync(of)
      toast({ title: 'Taken back', detail: 'The finding waits for the call again.' })
    } catch (e) {
      const { title, remedy } = asSentences(e)
      toast({ title, detail: remedy, tone: 'error' })
    }
  }
  const onTell = async (told_at: string) => {
    const call = { ...whom.trim() !== '' && { told_to: whom.trim() }, told_at }
    const told = await tell.mutateAsync({ of, call }).catch(() => null) // what went wrong stands in the form
    if (told === null) return
    toast({ title: TOLD, detail: `${withFullStop(toldText(told, timeZone))} ${about}`, undo: { run: () => void onUndo() }, durationMs: UNDO_MS })
    onDone()
  }
  return (
    <DialogForm
      verb="Note it"
      busy={tell.isPending}
      failed={tell.error}
      onSubmit={() => {
        setTried(true)
        if (!nameMissing && atMs !== null) void onTell(new Date(atMs).toISOString())
      }}>
      <Field
        label="Who was told"
        hint="The person or the desk."
        optional={!needsName}
        required={needsName}
        maxLength={200}
        autoComplete="off"
        value={whom}
        onChange={(e) => setWhom(e.target.value)}
        error={tried && nameMissing ? 'Of a critical finding this is needed: name the person or the desk.' : undefined}
      />
      <Field
        label={`At what time${zoneName === '' ? '' : `, ${zoneName}`}`}
        hint="Of the call, within the last day."
        required
        inputMode="numeric"
        autoComplete="off"
        maxLength={5}
        value={clock}
        onChange={(e) => setClock(e.target.value)}
        error={tried && atMs === null ? 'Enter hours and minutes, such as 03:10.' : undefined}
      />
    </DialogForm>
  )
}

const splitTime = (text: string): [clock: string, zone: string] => [text.slice(0, 5), text.slice(6)]
