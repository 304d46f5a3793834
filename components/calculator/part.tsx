import type { ReactNode } from 'react'
import css from './calculator.module.css'

/** A group of fields under its heading; optional ones as a group rather than one by one. */
export function Part({ title, note, optional, children }: { title: string; note?: string; optional?: boolean; children: ReactNode }) {
  return (
    <fieldset className={css.part}>
      <legend>
        {title}
        {optional && <span> optional</span>}
      </legend>
      {note && <p className={css.note}>{note}</p>}
      <div className={css.fields}>{children}</div>
    </fieldset>
  )
}
