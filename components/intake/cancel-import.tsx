'use client'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { useToast } from '@/components/ui/toast'
import { useLocalText } from '@/components/ui/use-local-text'
import type { ImportStatus } from '@/lib/contract/contract'
import { useEndImport } from './use-imports'
import { undoneWords } from './words'

/** Calls off an import that waits or runs. Nothing is asked first: nothing is lost, since the same file can be imported again. */
export function CancelImport({ status }: { status: ImportStatus }) {
  const toast = useToast()
  const local = useLocalText()
  const end = useEndImport(({ undo }) =>
    toast(undo === null
      ? { title: local('Import cancelled'), detail: 'Nothing of it was stored.' }
      : { title: 'It was done just before, and is undone', detail: undoneWords(undo) }))
  return (
    <Button
      size="small"
      busy={end.isPending}
      onClick={() =>
        end.mutate(status.id, {
          onError: (error) => {
            const told = asSentences(error)
            toast({ tone: 'error', title: told.title, detail: told.remedy })
          },
        })
      }
    >
      Cancel import
    </Button>
  )
}
