'use client'
import { useState } from 'react'
import { useRouter } from 'next/navigation'
import { Button, type ButtonProps } from '@/components/ui/button'
import { Dialog, DialogClose } from '@/components/ui/dialog'
import { asSentences } from '@/components/ui/fetch-json'
import { Icon } from '@/components/ui/icons'
import { ErrorState } from '@/components/ui/states'
import { useToast } from '@/components/ui/toast'
import type { ImportReport, ImportStatus } from '@/lib/contract/contract'
import { keepFile, keptFile } from './kept-files'
import { sendFile } from './upload'
import { useEndImport, useImport } from './use-imports'
import { isNetwork, kindLabel, undoneWords, undoWords } from './words'
import css from './intake.module.css'

/** Says what goes and what stays, then withdraws the import as one act. While this page holds the file, that can be taken back. */
export function UndoImport({
  status,
  report,
  size,
  variant = 'default',
}: {
  status: ImportStatus
  report: ImportReport
  size?: ButtonProps['size']
  variant?: ButtonProps['variant']
}) {
  const [open, setOpen] = useState(false)
  const toast = useToast()
  // What rests on it may have changed since the list was read.
  const asked = useImport(status.id, open && report.kind !== 'readings')
  const { resting } = asked.data ?? status
  const isBlocked = (resting?.blockers.length ?? 0) > 0
  const takeBack = useTakeBack()
  const undo = useEndImport((undone) => {
    setOpen(false)
    const file = keptFile(status.id)
    toast({
      title: `Import ${status.id} undone`,
      detail: undone.undo === null ? 'Nothing of it was stored.' : undoneWords(undone.undo),
      undo: file
        ? {
            label: 'Take back',
            run: () => {
              void takeBack(status.id)
            },
          }
        : undefined,
    })
  })
  return (
    <Dialog
      open={open}
      onOpenChange={setOpen}
      title={`Undo the import of ${status.file_name}?`}
      trigger={
        <Button size={size} variant={variant}>
          <Icon name="undo" />
          {isNetwork(report.kind) ? `Undo ${kindLabel(report.kind).toLowerCase()} …` : 'Undo import'}
        </Button>
      }
      actions={
        <>
          <DialogClose>
            <Button>Keep it</Button>
          </DialogClose>
          <Button variant="primary" busy={undo.isPending} disabled={isBlocked || asked.isFetching} onClick={() => undo.mutate(status.id)}>
            Undo import
          </Button>
        </>
      }
    >
      <ul className={css.sentences}>
        {undoWords(report, resting).map((s) => (
          <li key={s}>{s}</li>
        ))}
        {!isBlocked && (
          <li>
            {keptFile(status.id)
              ? 'You can take this back from the notice that follows.'
              : `To take it back later, import ${status.file_name} again.`}
          </li>
        )}
      </ul>
      {undo.isError && <ErrorState small {...asSentences(undo.error)} />}
    </Dialog>
  )
}

/** Sends the file of an undone import again, as it was sent before. */
function useTakeBack() {
  const toast = useToast()
  const router = useRouter()
  return async (importId: number) => {
    const request = keptFile(importId)
    if (!request) return
    try {
      const { status } = await sendFile(request, () => undefined, new AbortController().signal)
      keepFile(status.id, request)
      router.push(`/intake/${status.id}`)
    } catch (cause) {
      const told = asSentences(cause)
      toast({ tone: 'error', title: told.title, detail: told.remedy })
    }
  }
}
