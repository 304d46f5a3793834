import type { ReactNode, RefObject } from 'react'
import css from './loading.module.css'

/** Where the answer stands below the sliders: the gist of it at the foot of the screen, and the way to the rest. */
export function Peek({ answer, children }: { answer: RefObject<HTMLElement | null>; children: ReactNode }) {
  return (
    <button type="button" className={`${css.peek} no-print`} onClick={() => answer.current?.scrollIntoView()}>
      <strong>{children}</strong>
      <span className={css.see}>See the answer</span>
    </button>
  )
}
