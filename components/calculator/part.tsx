import type { ReactNode } from 'react'
import css from './calculator.module.css'

/** A group of fields under its heading. */
export function Part({ title, note, children }: { title: string; note?: string; children: ReactNode }) {
  return (
    <fieldset className={css.part}>
      <legend>{title}</legend>
      {note && <p className={css.note}>{note}</p>}
      <div className={css.fields}>{children}</div>
    </fieldset>
  )
}
