'use client'
import { useState } from 'react'
import { Button } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import type { SpliceDetail } from '@/lib/contract/contract'
import { OwnerButton } from './owner-button'
import { LookForm } from './look-form'
import { RecordForm } from './record-form'

type Of = Pick<SpliceDetail, 'id' | 'splice' | 'circuit' | 'class' | 'history' | 'owner'>

/** What can be noted of a splice: a call, and where it comes back at each peak-load period a look at it. */
export function CallSteps({ detail }: { detail: Of }) {
  const comesBack = detail.class === 'urgent' || detail.class === 'critical'
  return (
    <>
      <RecordButton of={detail} noticeWaits={noticeWaits(detail.history)} />
      {comesBack && <LookButton spliceId={detail.id} splice={detail.splice} circuit={detail.circuit} />}
      <OwnerButton of={detail} />
    </>
  )
}

/** A notice that was told stands in the history twice: as it was raised, and as it was told. */
const noticeWaits = (history: Of['history']): boolean =>
  history.filter(({ kind }) => kind === 'notice').length > history.filter(({ kind }) => kind === 'told').length

function RecordButton({ of, noticeWaits: waits }: { of: Of; noticeWaits: boolean }) {
  const [open, setOpen] = useState(false)
  return (
    <Dialog
      open={open} onOpenChange={setOpen} trigger={<Button size="small">Record a call</Button>} title={`Record a call: ${of.splice}`}
      description={`${of.circuit}, ${of.class}. It stays in the log for the next shift.`}>
      {open && <RecordForm spliceId={of.id} splice={of.splice} noticeWaits={waits} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}

export function LookButton({ spliceId, splice, circuit }: { spliceId: number; splice: string; circuit: string }) {
  const [open, setOpen] = useState(false)
  return (
    <Dialog
      open={open} onOpenChange={setOpen} trigger={<Button size="small" aria-label={`Looked at again: ${splice}`}>Looked at again</Button>}
      title={`Looked at again: ${splice}`} description={`${circuit}. It stays in the log, and the splice comes back at the next peak-load period.`}>
      {open && <LookForm spliceId={spliceId} splice={splice} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}
