'use client'
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
