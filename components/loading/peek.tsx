'use client'
import { useEffect, useState, type ReactNode, type RefObject } from 'react'
import css from './loading.module.css'

/** Where the answer stands below the sliders: the gist of it at the foot of the screen, and the way to the rest. Gone while the answer is in sight. */
export function Peek({ answer, children }: { answer: RefObject<HTMLElement | null>; children: ReactNode }) {
  const [seen, setSeen] = useState(false)
  useEffect(() => {
    const element = answer.current
    if (!element) return
    // Its first lines are enough: a sliver at the lower edge is not.
    const watching = new IntersectionObserver(([entry]) => setSeen(entry?.isIntersecting ?? false), { rootMargin: '0px 0px -180px 0px' })
    watching.observe(element)
    return () => watching.disconnect()
  }, [answer])
  if (seen) return null
  return (
    <button type="button" className={`${css.peek} no-print`} onClick={() => answer.current?.scrollIntoView()}>
      <strong>{children}</strong>
      <span className={css.see}>See the answer</span>
    </button>
  )
}
