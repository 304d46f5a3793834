'use client'
import { useState } from 'react'
import { Field } from '@/components/ui/field'
import { shownNumber, shownUnit, typedNumber } from './policy-draft'

/** A number as it is typed: what is no number yet stays on screen, and what comes from outside replaces it. Null: typed, but no number. */
export function NumberField({
  label,
  unit,
  value,
  fault,
  optional,
  onValue,
}: {
  label: string
  unit: string
  value: unknown
  fault: string | undefined
  optional?: boolean
  onValue(value: number | null): void
}) {
  const [typed, setTyped] = useState<string | null>(null)
  const number = typeof value === 'number' ? value : null
  const shown = typed !== null && typedNumber(typed, unit) === number ? typed : number === null ? '' : shownNumber(number, unit)
  return (
    <Field
      label={label}
      optional={optional}
      unit={shownUnit(unit) || undefined}
      inputMode="decimal"
      autoComplete="off"
      value={shown}
      error={fault}
      onChange={(e) => {
        setTyped(e.target.value)
        onValue(typedNumber(e.target.value, unit))
      }}
    />
  )
}
