'use client'
import { useState } from 'react'
import { DialogForm } from '@/components/ui/dialog-form'
import { Checkbox, Field, TextArea } from '@/components/ui/field'
import { MomentField } from '@/components/ui/moment-field'
import { keepOwnName, ownName } from '@/components/ui/own-name'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { useToast } from '@/components/ui/toast'
import { useNow } from '@/components/ui/use-now'
import { CALL_DECISIONS, type CallDecision } from '@/lib/contract/calls'
import { spell } from '@/lib/units/spelling'
import { formatTime } from '@/lib/units/time'
import { useRecordCall } from './use-calls'
import { DECISION_WORDS, whoText } from './words'
import css from './calls.module.css'

interface Props { spliceId: number; splice: string; noticeWaits: boolean; onDone(): void }

/** Who called whom, when, and what was decided. */
export function RecordForm({ spliceId, splice, noticeWaits, onDone }: Props) {
  const timeZone = useTimeZone()
  const [system] = useUnitSystem()
  const toast = useToast()
  const record = useRecordCall(spliceId)
  const nowMs = useNow()
  const [opened] = useState(() => new Date())
  const [at, setAt] = useState<Date | null>(opened)
  const [by, setBy] = useState(ownName)
  const [whom, setWhom] = useState('')
  const [decided, setDecided] = useState<readonly CallDecision[]>([])
  const [why, setWhy] = useState('')
  const [note, setNote] = useState('')
  const [toldControlRoom, setTold] = useState(noticeWaits)
  const [tried, setTried] = useState(false)
  const nothing = decided.includes('nothing-yet')
  const faults = {
    by: by.trim() === '' ? 'Name who called.' : undefined,
    whom: whom.trim() === '' ? 'Name the person or the desk.' : undefined,
    at: at === null ? 'Say when the call was.' : at.getTime() > nowMs + 60_000 ? 'This is still to come. Say when the call was.' : undefined,
    decided: decided.length === 0 ? 'Say what was decided, be it nothing yet.' : undefined,
    why: nothing && why.trim() === '' ? 'Say why: the next shift asks.' : undefined,
  }
  const shown = (fault: string | undefined) => (tried ? fault : undefined)
  const send = () => {
    setTried(true)
    if (at === null || Object.values(faults).some((fault) => fault !== undefined)) return
    keepOwnName(by)
    record.mutate({
      kind: 'call', by: by.trim(), whom: whom.trim(), decided: [...decided],
      ...at !== opened && { at: at.toISOString() }, ...nothing && { nothing_why: why.trim() }, ...note.trim() !== '' && { note: note.trim() },
      ...noticeWaits && toldControlRoom && { told_control_room: true },
    }, {
      onSuccess: (entry) => {
        toast({ title: 'Call noted', detail: `${splice}: ${whoText(entry)}, ${formatTime(Date.parse(entry.at), timeZone)}.` })
        onDone()
      },
    })
  }
  return (
    <DialogForm verb="Note the call" busy={record.isPending} failed={record.error} onSubmit={send}>
      <div className={css.pair}>
        <Field label="Who called" required maxLength={200} autoComplete="name" value={by} onChange={(e) => setBy(e.target.value)} error={shown(faults.by)} />
        <Field label="Whom" required maxLength={200} autoComplete="off" value={whom} onChange={(e) => setWhom(e.target.value)} error={shown(faults.whom)} />
      </div>
      <MomentField
        label="When" required hint={`By the clock of ${timeZone.replace('_', ' ')}.`} value={at} onValue={setAt} timeZone={timeZone}
        error={tried || at === null || at > opened ? faults.at : undefined} />
      <fieldset className={css.decisions} aria-describedby={tried && faults.decided ? 'decided-fault' : undefined}>
        <legend>What was decided</legend>
        {CALL_DECISIONS.map((one) => (
          <Checkbox key={one} label={spell(DECISION_WORDS[one], system)} checked={decided.includes(one)} onCheckedChange={(on) => setDecided(chosen(decided, one, on))} />
        ))}
        {tried && faults.decided && <p id="decided-fault" className={css.fault}>{faults.decided}</p>}
      </fieldset>
      {nothing && <Field label="Why nothing yet" required maxLength={2000} value={why} onChange={(e) => setWhy(e.target.value)} error={shown(faults.why)} />}
      <TextArea label="Note" optional rows={2} maxLength={2000} value={note} onChange={(e) => setNote(e.target.value)} />
      {noticeWaits && (
        <Checkbox label="It was the control room: what waits for it of this splice was told" checked={toldControlRoom} onCheckedChange={setTold} />
      )}
    </DialogForm>
  )
}

const APART: readonly (readonly CallDecision[])[] = [['reclosing-blocked', 'reclosing-left-on']]

/** What cannot stand beside the new one goes out; in the order in which they are offered. */
export function chosen(before: readonly CallDecision[], one: CallDecision, on: boolean): CallDecision[] {
  const without = before.filter((other) => other !== one)
  if (!on) return without
  if (one === 'nothing-yet') return ['nothing-yet']
  const kept = without.filter((other) => other !== 'nothing-yet' && !APART.some((pair) => pair.includes(one) && pair.includes(other)))
  return CALL_DECISIONS.filter((each) => each === one || kept.includes(each))
}
