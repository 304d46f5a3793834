'use client'
import { useCallback, useSyncExternalStore } from 'react'

/** One thing at a time: below this width lists, maps and sheets lie over each other. */
export const PHONE = '(max-width: 760px)'

/** Whether a media query holds; false on the server and for the first paint. */
export function useMedia(query: string): boolean {
  const subscribe = useCallback((changed: () => void) => {
    const list = window.matchMedia(query)
    list.addEventListener('change', changed)
    return () => list.removeEventListener('change', changed)
  }, [query])
  return useSyncExternalStore(subscribe, () => window.matchMedia(query).matches, () => false)
}
