'use client'
import { useRef, useState } from 'react'
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

interface Made {
  readingId: number
  serial: number
}

/** Decisions show at once and are sent behind; each can be taken back, the last one by one key. */
export function useDecisions(state: QueueState, onReturn: (readingId: number) => void) {
  const edits = useQueueEdits()
  const toast = useToast()
  const [made, setMade] = useState<Made[]>([])
  const serial = useRef(0)
  const takenBack = useRef(new Set<number>()) // a notice may still offer what a key has taken back already

  const sayWhy = (error: unknown) => {
    const told = asSentences(error)
    toast({ tone: 'error', title: told.title, detail: told.remedy })
  }

  const takeBack = async (readingId: number): Promise<void> => {
    try {
      const item = await fetchJson(address(readingId), reviewItem, { method: 'DELETE' })
      edits.settle(item)
      edits.reload()
      onReturn(readingId)
      toast({ title: saidOf(item) })
    } catch (error) {
      sayWhy(error)
    }
  }

  const undo = (decision: Made) => {
    if (takenBack.current.has(decision.serial)) return
    takenBack.current.add(decision.serial)
    setMade((all) => all.filter((m) => m.serial !== decision.serial))
    void takeBack(decision.readingId)
  }

  const decide = async (item: ReviewItem, decision: PlacementDecision): Promise<void> => {
    const before = edits.remove(state, item.reading.id)
    try {
      const settled = await fetchJson(address(item.reading.id), reviewItem, json(decision))
      serial.current += 1
      const now = { readingId: item.reading.id, serial: serial.current }
      setMade((all) => [...all, now])
      edits.settle(settled)
      toast({ title: saidOf(settled), undo: { run: () => undo(now) } })
    } catch (error) {
      edits.restore(state, before)
      onReturn(item.reading.id)
      sayWhy(error)
    }
  }

  const last = made.at(-1)
  return {
    decide,
    takeBack,
    /** Takes the last decision of this visit back; null when there is none left. */
    undoLast: last === undefined ? null : () => undo(last),
  }
}
