'use client'
import { Select } from '@/components/ui/select'
import type { MappingJson } from '@/lib/contract/intake'
import { findField } from '@/lib/intake/kinds/kinds'
import type { FileSetting } from './draft'
import { labelOf } from './field-choices'
import type { OpenQuestions as Questions } from './open-questions'
import type { Kind } from './words'
import css from './draft.module.css'

/** The value of a Select that leaves it to the file; it must not be empty. */
const OPEN = 'open'

/** What the file leaves open, for a person to say of all its rows. */
export function OpenQuestions({
  kind,
  mapping,
  questions,
  onSetting,
  onAlways,
}: {
  kind: Kind
  mapping: MappingJson
  questions: Questions
  onSetting<Name extends keyof FileSetting>(name: Name, value: FileSetting[Name]): void
  onAlways(field: string, value: string | undefined): void
}) {
  const { dateOrder, decimals, words } = questions
  if (!dateOrder && !decimals && words.length === 0) return null
  return (
    <div className={css.fields}>
      {dateOrder && (
        <Select
          label="03/04/2026 reads"
          hint="Month first where the file does not tell."
          value={mapping.dateOrder ?? OPEN}
          onValueChange={(v) => onSetting('dateOrder', v === 'mdy' || v === 'dmy' ? v : undefined)}
          options={[
            { value: OPEN, label: 'As the file tells' },
            { value: 'mdy', label: 'March 4' },
            { value: 'dmy', label: '3 April' },
          ]}
        />
      )}
      {decimals && (
        <Select
          label="Sign of decimals"
          value={mapping.decimalComma === undefined ? OPEN : mapping.decimalComma ? 'comma' : 'point'}
          onValueChange={(v) => onSetting('decimalComma', v === OPEN ? undefined : v === 'comma')}
          options={[
            { value: OPEN, label: 'As the numbers tell' },
            { value: 'point', label: 'Point' },
            { value: 'comma', label: 'Comma' },
          ]}
        />
      )}
      {words.map((field) => (
        <Select
          key={field}
          label={labelOf(kind, field) ?? field}
          hint="For rows that name none."
          value={mapping.values?.[field] ?? OPEN}
          onValueChange={(v) => onAlways(field, v === OPEN ? undefined : v)}
          options={[
            { value: OPEN, label: 'As taken' },
            ...Object.keys(findField(kind, field)?.choices ?? {}).map((word) => ({ value: word, label: word })),
          ]}
        />
      ))}
    </div>
  )
}
