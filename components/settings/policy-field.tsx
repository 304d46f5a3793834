'use client'
import { Checkbox } from '@/components/ui/field'
import { useUnitSystem } from '@/components/ui/preferences'
import { useLocalText } from '@/components/ui/use-local-text'
import type { PolicyWord } from '@/lib/condition'
import { NumberField } from './number-field'
import { shownNumber } from './policy-draft'
import css from './policy.module.css'

const STATUS = { published: 'published', computed: 'computed', memory: 'from memory', 'common practice': 'common practice' } as const

/** One setting: what it means, where its default comes from, and the number. */
export function PolicyField({
  word,
  value,
  standard,
  fault,
  onValue,
}: {
  word: PolicyWord
  value: unknown
  standard: unknown
  fault: string | undefined
  onValue(value: unknown): void
}) {
  const [system] = useUnitSystem()
  const local = useLocalText()
  const label = local(word.label)
  const meaning = local(word.meaning)
  if (typeof value === 'boolean') {
    return (
      <div className={css.field}>
        <Checkbox label={label} checked={value} onCheckedChange={onValue} />
        <p className={css.meaning}>{meaning}</p>
      </div>
    )
  }
  return (
    <div className={css.field}>
      <NumberField label={label} unit={word.unit} value={value} fault={fault} onValue={onValue} />
      <p className={css.meaning}>
        {meaning}
        <span>
          {typeof standard === 'number' && standard !== value && (
            <button type="button" onClick={() => onValue(standard)}>
              Default {shownNumber(standard, word.unit, system)}
              {word.unit === 'share' ? '%' : ''}
            </button>
          )}
          <abbr title={local(word.source)}>{STATUS[word.status]}</abbr>
        </span>
      </p>
    </div>
  )
}
