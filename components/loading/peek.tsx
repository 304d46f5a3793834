'use client'
import type { ReactNode, RefObject } from 'react'
import { useInSight } from '@/components/ui/use-in-sight'
import css from './loading.module.css'

/** Where the answer stands below the sliders: the gist of it at the foot of the screen, and the way to the rest. Gone while the answer is in sight. */
export function Peek({ answer, children }: { answer: RefObject<HTMLElement | null>; children: ReactNode }) {
  if (useInSight(answer)) return null
  return (
    <button type="button" className={`${css.peek} no-print`} onClick={() => answer.current?.scrollIntoView()}>
      <strong>{children}</strong>
      <span className={css.see}>See the answer</span>
    </button>
  )
}
