import { Icon } from '@/components/ui/icons'
import type { ImportPreview } from '@/lib/contract/intake'
import { classWords } from './urgent-words'
import { many } from './words'
import css from './preview.module.css'

/** Before anything is said of columns: the control room is called by what the first rows say, imported or not, read or not. */
export function PreviewUrgent({ rows }: { rows: ImportPreview['rows'] }) {
  const urgent = rows.flatMap(({ becomes: { own_class: own, held } }) => (own === undefined ? [] : [{ class: own, held }]))
  if (urgent.length === 0) return null
  return (
    <p className={css.urgent} role="alert">
      <Icon name="phone" />
      <b>{classWords(urgent)}: call the control room now.</b>{' '}
      <span>By their own numbers, of the first {many(rows.length, 'row')}. {seenText(urgent.length, urgent.filter(({ held }) => held).length)}</span>
    </p>
  )
}

/** What of it operations has on its screen already: rows that are stored were announced when they came in. */
export function seenText(urgent: number, held: number): string {
  if (held === 0) return 'Nothing is imported yet, so operations does not see it.'
  const seen = held === urgent ? 'All of it is' : `${held} of ${urgent} are`
  return `${seen} stored already and announced on Operations, where it says whether the control room was told.${held === urgent ? '' : ' Operations does not see the rest before the import.'}`
}
