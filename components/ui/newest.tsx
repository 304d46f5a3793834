'use client'
import { useState, type ReactNode } from 'react'
import css from './newest.module.css'

interface Props {
  /** What stands behind the button, which carries `data-earlier`; empty where nothing does. */
  more: string
  children: ReactNode
}

/** What is newest at once, the rest on one press; paper chooses for itself. */
export function Newest({ more, children }: Props) {
  const [all, setAll] = useState(false)
  if (more === '') return children
  return (
    <div className={css.newest} data-all={all}>
      {children}
      <button type="button" className={`${css.more} no-print`} aria-expanded={all} onClick={() => setAll(!all)}>
        {all ? 'Only the newest' : more}
      </button>
    </div>
  )
}
