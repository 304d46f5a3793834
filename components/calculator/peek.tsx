'use client'
import type { RefObject } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { CLASS_WORDS } from '@/lib/condition'
import { useInSight } from '@/components/ui/use-in-sight'
import { formatRatio } from '@/lib/units/format'
import { shownRatio, type Reckoned } from './outcome'
import css from './calculator.module.css'

/** Where the answer stands below the fields: its class and ratio at the foot of the screen while typing, and the way to the rest. Gone while the answer is in sight. */
export function Peek({ reckoned, answer }: { reckoned: Reckoned; answer: RefObject<HTMLElement | null> }) {
  const { class: condition } = reckoned.assessment
  const ratio = shownRatio(reckoned.assessment)
  if (useInSight(answer)) return null
  return (
    <button type="button" className={`${css.peek} no-print`} onClick={() => answer.current?.scrollIntoView()}>
      <ClassMark class={condition} size={16} />
      <strong>{CLASS_WORDS[condition]}</strong>
      {ratio !== undefined && <span>{formatRatio(ratio)}</span>}
      <span className={css.see}>See the answer</span>
    </button>
  )
}
