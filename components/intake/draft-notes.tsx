'use client'
import { Button } from '@/components/ui/button'
import type { ImportPreview } from '@/lib/contract/intake'
import type { DraftState } from './use-draft'
import { many } from './words'
import css from './draft.module.css'

/** So many are read at once; the others open below them, or the columns would begin far down on a phone. */
const AT_ONCE = 2

/** What nothing in the file bears out is never folded away. */
const isDoubt = (note: string): boolean => /^Nothing (says|in the file tells)|^No column gives|none that is known/.test(note)

/** Those that are read at once, doubts first among what was taken for granted, and the others. */
export function foldNotes(notes: readonly string[]): [first: string[], rest: string[]] {
  if (notes.length <= AT_ONCE + 1) return [[...notes], []]
  const others = notes.filter((note) => !isDoubt(note))
  return [[...notes.filter(isDoubt), ...others.slice(0, AT_ONCE)], others.slice(AT_ONCE)]
}

/** That the file is read as an earlier one with the same columns was, and the way out of it. */
export function ReadAsBefore({ state, preview }: { state: DraftState; preview: ImportPreview }) {
  if (state.draft?.fresh) {
    return <p className={css.asBefore}>Read without what was said of earlier files with the same columns. Importing it forgets that.</p>
  }
  const isAsBefore = preview.as_before !== undefined || state.mapping?.columns.some(({ basis }) => basis === 'remembered')
  if (!isAsBefore) return null
  return (
    <p className={css.asBefore}>
      {preview.as_before ?? 'Columns that are not your choice are read as those of an earlier file were.'}{' '}
      <Button size="small" onClick={state.forget} disabled={state.reading}>
        Forget it and read anew
      </Button>
    </p>
  )
}

/** How the bytes were read and what was taken for granted. */
export function DraftNotes({ notes }: { notes: readonly string[] }) {
  if (notes.length === 0) return null
  const [first, rest] = foldNotes(notes)
  return (
    <>
      <ul className={css.notes} aria-label="How the file is understood">
        {first.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
      {rest.length > 0 && (
        <details className={css.moreNotes}>
          <summary>{many(rest.length, 'more remark')} on how it is understood</summary>
          <ul className={css.notes}>
            {rest.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}
