import { Icon } from '@/components/ui/icons'
import type { ImportPreview } from '@/lib/contract/intake'
import { classWords } from './urgent-words'
import { many } from './words'
import css from './preview.module.css'

/** Before anything is said of columns: the control room is called by what the first rows say, imported or not, read or not. */
export function PreviewUrgent({ rows }: { rows: ImportPreview['rows'] }) {
  const urgent = rows.flatMap(({ becomes: { own_class: own } }) => (own === undefined ? [] : [{ class: own }]))
  if (urgent.length === 0) return null
  return (
    <p className={css.urgent} role="alert">
      <Icon name="phone" />
      <b>{classWords(urgent)}: call the control room now.</b>{' '}
      <span>By their own numbers, of the first {many(rows.length, 'row')}. Nothing is imported yet, so operations does not see it.</span>
    </p>
  )
}
