'use client'
import { useSyncExternalStore } from 'react'

let recipient = ''
const watching = new Set<() => void>()

/** Whom the paper of this page is for; kept while the page is open, so that a second copy need not be typed again. */
export function setPrintRecipient(name: string): void {
  recipient = name
  for (const tell of watching) tell()
}

const watch = (tell: () => void): (() => void) => {
  watching.add(tell)
  return () => watching.delete(tell)
}

export const usePrintRecipient = (): string => useSyncExternalStore(watch, () => recipient, () => '')
