'use client'
import { useEffect, useRef, useState } from 'react'
import { keepCookie, VISIT_COOKIE } from '@/components/ui/cookies'
import { useNetworkState } from '@/components/ui/network-state'
import { APART_MS, formatVisit, type Visit } from './visit'

/**
 * Remembers on leaving up to when this visit has seen everything. Out of sight for long, a screen that is looked at again begins a new visit.
 * @param arrived as the page was asked for
 */
export function useVisit(arrived: Visit): Visit {
  const [visit, setVisit] = useState(arrived)
  const completeTo = useNetworkState().data?.complete_to
  const now = useRef(arrived)
  useEffect(() => {
    now.current = { ...visit, seen: completeTo ?? visit.seen }
  }, [visit, completeTo])
  useEffect(() => {
    let hiddenAtMs: number | null = null
    const keep = () => keepCookie(VISIT_COOKIE, formatVisit(now.current))
    const onVisibility = () => {
      if (document.visibilityState === 'hidden') {
        keep()
        hiddenAtMs = Date.now()
        return
      }
      if (hiddenAtMs !== null && Date.now() - hiddenAtMs >= APART_MS) setVisit({ previous: now.current.seen, seen: now.current.seen })
      hiddenAtMs = null
    }
    document.addEventListener('visibilitychange', onVisibility)
    window.addEventListener('pagehide', keep)
    return () => {
      document.removeEventListener('visibilitychange', onVisibility)
      window.removeEventListener('pagehide', keep)
      keep()
    }
  }, [])
  return visit
}
