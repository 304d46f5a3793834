'use client'
import type { ReactNode, Ref } from 'react'
import { Button } from './button'
import { asSentences } from './fetch-json'
import css from './sheet.module.css'
import { ErrorState } from './states'

interface Props {
  /** On the button that sends it. */
  verb: string
  busy: boolean
  /** What the server refused; null where it did not. */
  failed: unknown
  /** Also where something is missing: the form then says so beside the field. */
  onSubmit(): void
  /** What can be done about a refusal. */
  remedy?: ReactNode
  /** Beside the button. */
  beside?: ReactNode
  ref?: Ref<HTMLFormElement>
  children: ReactNode
}

/** The form of a dialog: its fields, what the server refused, and the one button that sends it, once. */
export function DialogForm({ verb, busy, failed, onSubmit, remedy, beside, ref, children }: Props) {
  return (
    <form
      ref={ref}
      noValidate
      className={css.form}
      onSubmit={(e) => {
        e.preventDefault()
        if (!busy) onSubmit()
      }}>
      {children}
      {failed !== null && <ErrorState small {...asSentences(failed)} action={remedy} />}
      <p className={css.row}>
        <Button type="submit" variant="primary" busy={busy}>{verb}</Button>
        {beside}
      </p>
    </form>
  )
}
