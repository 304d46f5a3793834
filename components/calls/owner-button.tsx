'use client'
import { useState } from 'react'
import { useMutation } from '@tanstack/react-query'
import { Button } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import { DialogForm } from '@/components/ui/dialog-form'
import { fetchJson, sending } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import { keepOwnName, ownName } from '@/components/ui/own-name'
import { useWritten } from '@/components/ui/use-written'
import type { SpliceDetail } from '@/lib/contract/contract'
import { spliceOwner } from '@/lib/contract/watch'

type Of = Pick<SpliceDetail, 'id' | 'splice' | 'owner'>

/** Who has taken a splice, and the way to take it, hand it on or give it back. */
export function OwnerButton({ of }: { of: Of }) {
  const [open, setOpen] = useState(false)
  const { owner } = of.owner
  return (
    <Dialog
      open={open} onOpenChange={setOpen} title={`Who has taken ${of.splice}`} trigger={<Button size="small">{owner === null ? 'Take it' : `Taken by ${owner}`}</Button>}
      description={owner === null ? 'Nobody has. A named person sees to it that what is next is done.' : `${owner} has. Name somebody else to hand it on; the trail keeps who had it.`}>
      {open && <OwnerForm of={of} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}

function OwnerForm({ of, onDone }: { of: Of; onDone(): void }) {
  const written = useWritten()
  const [name, setName] = useState(() => of.owner.owner ?? ownName())
  const [tried, setTried] = useState(false)
  const put = useMutation({
    mutationFn: (owner: string | null) => fetchJson(`/api/v1/splices/${of.id}/owner`, spliceOwner, sending('PUT', { owner })),
    onSuccess: () => {
      onDone()
      written()
    },
  })
  return (
    <DialogForm
      verb={of.owner.owner === null ? 'Take it' : 'Hand it on'}
      busy={put.isPending}
      failed={put.error}
      beside={of.owner.owner === null ? undefined : <Button type="button" onClick={() => put.mutate(null)}>Nobody has it any more</Button>}
      onSubmit={() => {
        setTried(true)
        if (name.trim() === '') return
        if (of.owner.owner === null) keepOwnName(name)
        put.mutate(name.trim())
      }}>
      <Field label="Who" hint="By name." required maxLength={200} autoComplete="name" value={name} onChange={(e) => setName(e.target.value)} error={tried && name.trim() === '' ? 'Name who takes it.' : undefined} />
    </DialogForm>
  )
}
