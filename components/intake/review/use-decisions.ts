'use client'
import { useState } from 'react'
import { asSentences, fetchJson } from '@/components/ui/fetch-json'
import { useToast } from '@/components/ui/toast'
import { reviewItem, type ReviewItem } from '@/lib/contract/contract'
import type { PlacementDecision } from '@/lib/contract/intake'
import { useQueueEdits, type QueueState } from './use-queue'

const address = (readingId: number) => `/api/v1/readings/${readingId}/placement`
const json = (decision: PlacementDecision): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(decision),
})

/** What just happened, in the words of the toast. */
function saidOf(item: ReviewItem): string {
  const { reading } = item
  if (reading.placement.state === 'rejected') return `${reading.reading_id} rejected`
  if (reading.placement.state === 'review') return `${reading.reading_id} back in review`
  const { circuit, splice } = reading.placement
  return `${reading.reading_id} placed on ${circuit ?? 'the line'}${splice === null ? '' : `, ${splice}`}`
}

/** Decisions show at once and are sent behind; each can be taken back, the last one by one key. */
export function useDecisions(state: QueueState, onReturn: (readingId: number) => void) {
  const edits = useQueueEdits()
  const toast = useToast()
  const [done, setDone] = useState<number[]>([])

  const takeBack = async (readingId: number): Promise<void> => {
    setDone((d) => d.filter((id) => id !== readingId))
    try {
      const item = await fetchJson(address(readingId), reviewItem, { method: 'DELETE' })
      edits.settle(item)
      edits.reload()
      onReturn(readingId)
      toast({ title: saidOf(item) })
    } catch (error) {
      const told = asSentences(error)
      toast({ tone: 'error', title: told.title, detail: told.remedy })
    }
  }

  const decide = async (item: ReviewItem, decision: PlacementDecision): Promise<void> => {
    const before = edits.remove(state, item.reading.id)
    try {
      const settled = await fetchJson(address(item.reading.id), reviewItem, json(decision))
      setDone((d) => [...d, item.reading.id])
      edits.settle(settled)
      toast({
        title: saidOf(settled),
        undo: {
          run: () => {
            void takeBack(item.reading.id)
          },
        },
      })
    } catch (error) {
      edits.restore(state, before)
      onReturn(item.reading.id)
      const told = asSentences(error)
      toast({ tone: 'error', title: told.title, detail: told.remedy })
    }
  }

  return {
    decide,
    takeBack,
    /** The last decision of this visit; null when there is none left. */
    undoLast:
      done.length === 0
        ? null
        : () => {
            void takeBack(done[done.length - 1] ?? 0)
          },
  }
}
