'use client'
import { useSyncExternalStore } from 'react'

/** The splice that somebody points at, wherever they do. */
export interface Hovered { id: number; lon: number; lat: number; by: 'map' | 'strip' | 'list' }

let hovered: Hovered | null = null
const listeners = new Set<() => void>()

/** Beside React's state: pointing moves many times a second, and only the marks of this one splice change by it. */
export function setHovered(next: Hovered | null): void {
  if (next?.id === hovered?.id && next?.by === hovered?.by) return
  hovered = next
  for (const tell of listeners) tell()
}

/** Takes it back where nobody else points meanwhile. */
export const unhover = (by: Hovered['by']): void => { if (hovered?.by === by) setHovered(null) }

const subscribe = (tell: () => void) => {
  listeners.add(tell)
  return () => listeners.delete(tell)
}

export const useHovered = (): Hovered | null => useSyncExternalStore(subscribe, () => hovered, () => null)

/** Rendered anew only where this splice begins or ends to be pointed at. */
export const useIsHovered = (id: number): boolean => useSyncExternalStore(subscribe, () => hovered?.id === id, () => false)
