'use client'
import { useId, useState } from 'react'
import { Field } from '@/components/ui/field'
import { useTimeZone } from '@/components/ui/preferences'
import { Select } from '@/components/ui/select'
import type { MappingJson } from '@/lib/contract/intake'
import { KINDS } from '@/lib/intake/kinds/kinds'
import { IMPORT_KINDS } from '@/lib/intake/types'
import { isTimeZone } from '@/lib/units/time'
import type { Kind } from './words'
import css from './draft.module.css'

const isKind = (value: string): value is Kind => IMPORT_KINDS.some((k) => k === value)

/** Kind of file, survey, and the zone of times that name none. Only what the kind needs is asked. */
export function DraftFields({
  kind,
  isOpen,
  mapping,
  survey,
  onKind,
  onSurvey,
  onTimeZone,
}: {
  kind: Kind
  /** Nobody has said the kind, and it must not be guessed. */
  isOpen: boolean
  mapping: MappingJson
  survey: string
  onKind(kind: Kind): void
  onSurvey(survey: string): void
  onTimeZone(zone: string): void
}) {
  const fields = KINDS[kind].fields
  const mapped = new Set(mapping.columns.map((c) => c.field))
  const takesSurvey = fields.some((f) => f.name === 'survey')
  const takesTime = fields.some((f) => f.type === 'instant' && mapped.has(f.name))
  return (
    <div className={css.fields}>
      <Select
        label="Kind of file"
        value={isOpen ? undefined : kind}
        onValueChange={(v) => {
          if (isKind(v)) onKind(v)
        }}
        options={IMPORT_KINDS.map((k) => ({ value: k, label: KINDS[k].geometry === 'line' ? `${KINDS[k].label} (GeoJSON only)` : KINDS[k].label }))}
      />
      {takesSurvey && !isOpen && (
        <Field
          label="Survey"
          value={survey}
          maxLength={200}
          onChange={(e) => onSurvey(e.target.value)}
          hint={mapped.has('survey') ? 'For rows that name none.' : 'No column names it.'}
        />
      )}
      {takesTime && !isOpen && <ZoneField zone={mapping.timeZone ?? ''} onZone={onTimeZone} />}
    </div>
  )
}

function ZoneField({ zone, onZone }: { zone: string; onZone(zone: string): void }) {
  const utilityZone = useTimeZone()
  const listId = useId()
  const [text, setText] = useState(zone)
  const wrong = text !== '' && !isTimeZone(text)
  return (
    <>
      <Field
        label="Zone of times without one"
        value={text}
        placeholder={utilityZone}
        list={listId}
        autoComplete="off"
        spellCheck={false}
        hint={text === '' ? "The utility's zone, unless you name another." : undefined}
        error={wrong ? `${text} is no time zone. Write one like America/Denver.` : undefined}
        onChange={(e) => {
          setText(e.target.value)
          if (e.target.value === '' || isTimeZone(e.target.value)) onZone(e.target.value)
        }}
      />
      <datalist id={listId}>
        {Intl.supportedValuesOf('timeZone').map((z) => (
          <option key={z} value={z} />
        ))}
      </datalist>
    </>
  )
}
