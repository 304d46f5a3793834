'use client'
import { Checkbox } from '@/components/ui/field'
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
  if (typeof value === 'boolean') {
    return (
      <div className={css.field}>
        <Checkbox label={word.label} checked={value} onCheckedChange={onValue} />
        <p className={css.meaning}>{word.meaning}</p>
      </div>
    )
  }
  return (
    <div className={css.field}>
      <NumberField label={word.label} unit={word.unit} value={value} fault={fault} onValue={onValue} />
      <p className={css.meaning}>
        {word.meaning}
        <span>
          {typeof standard === 'number' && standard !== value && (
            <button type="button" onClick={() => onValue(standard)}>
              Default {shownNumber(standard, word.unit)}
              {word.unit === 'share' ? ' %' : ''}
            </button>
          )}
          <abbr title={word.source}>{STATUS[word.status]}</abbr>
        </span>
      </p>
    </div>
  )
}
