'use client'
import { useEffect, useRef } from 'react'

/** Escape pressed anywhere outside a field, where nothing nearer has taken it. */
export function useEscape(act: (() => void) | null): void {
  const latest = useRef(act)
  useEffect(() => { latest.current = act })
  useEffect(() => {
    const onKey = (e: KeyboardEvent) => {
      const inField = e.target instanceof HTMLElement && /^(INPUT|TEXTAREA|SELECT)$/.test(e.target.tagName)
      if (e.key === 'Escape' && !e.defaultPrevented && !inField) latest.current?.()
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [])
}
