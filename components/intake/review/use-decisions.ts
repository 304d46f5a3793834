'use client'
import { useRef, useState } from 'react'
import { asSentences, fetchJson, sending } from '@/components/ui/fetch-json'
import { reviewItem, type ReviewItem } from '@/lib/contract/contract'
import type { PlacementDecision } from '@/lib/contract/intake'
import { capital, readingName } from '../reading-name'
import { useQueueEdits, type QueueView } from './use-queue'

const address = (readingId: number) => `/api/v1/readings/${readingId}/placement`

/** What just happened, in the words of the notice. */
function saidOf(item: ReviewItem): string {
  const { reading_id: key, row, placement } = item.reading
  const name = capital(readingName(key, row))
  if (placement.state === 'rejected') return `${name} set aside`
  if (placement.state === 'review') return `${name} back in review`
  const { circuit, splice } = placement
  return `${name} placed on ${circuit ?? 'the line'}${splice === null ? '' : `, ${splice}`}`
}

interface Made {
  readingId: number
  serial: number
}

/** What just happened on this screen, and whether undoing would take it back. It stands in the page, so it covers nothing. */
export interface Notice {
  key: number
  text: string
  tone: 'plain' | 'error'
  canUndo: boolean
}

/** Decisions show at once and are sent behind; each can be taken back, the last one by one key. */
export function useDecisions(view: QueueView, onReturn: (readingId: number) => void) {
  const edits = useQueueEdits()
  const [made, setMade] = useState<Made[]>([])
  const [notice, setNotice] = useState<Notice | null>(null)
  const serial = useRef(0)

  const say = (text: string, tone: Notice['tone'] = 'plain', canUndo = false) =>
    setNotice((before) => ({ key: (before?.key ?? 0) + 1, text, tone, canUndo }))
  const sayWhy = (error: unknown) => {
    const told = asSentences(error)
    say(`${told.title} ${told.remedy}`, 'error')
  }

  const takeBack = async (readingId: number): Promise<void> => {
    try {
      const item = await fetchJson(address(readingId), reviewItem, { method: 'DELETE' })
      edits.settle(item)
      edits.reload()
      onReturn(readingId)
      say(saidOf(item))
    } catch (error) {
      sayWhy(error)
    }
  }

  const undo = (decision: Made) => {
    setMade((all) => all.filter((m) => m.serial !== decision.serial))
    void takeBack(decision.readingId)
  }

  const decide = async (item: ReviewItem, decision: PlacementDecision): Promise<void> => {
    const before = edits.remove(view, item)
    try {
      const settled = await fetchJson(address(item.reading.id), reviewItem, sending('POST', decision))
      serial.current += 1
      setMade((all) => [...all, { readingId: item.reading.id, serial: serial.current }])
      edits.settle(settled)
      say(saidOf(settled), 'plain', true)
    } catch (error) {
      edits.restore(view, before)
      onReturn(item.reading.id)
      sayWhy(error)
    }
  }

  const last = made.at(-1)
  return {
    decide,
    takeBack,
    notice,
    dismiss: () => setNotice(null),
    /** Takes the last decision of this visit back; null when there is none left. */
    undoLast: last === undefined ? null : () => undo(last),
  }
}
