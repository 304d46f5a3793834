'use client'
import { useState } from 'react'
import { Field } from '@/components/ui/field'
import { useUnitSystem } from '@/components/ui/preferences'
import { shownNumber, typedNumber } from './policy-draft'
import { shownIn } from './policy-units'

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
  const [system] = useUnitSystem()
  const [typed, setTyped] = useState<string | null>(null)
  const number = typeof value === 'number' ? value : null
  const shown = typed !== null && typedNumber(typed, unit, system) === number ? typed : number === null ? '' : shownNumber(number, unit, system)
  return (
    <Field
      label={label}
      optional={optional}
      unit={shownIn(unit, system).label || undefined}
      inputMode="decimal"
      autoComplete="off"
      value={shown}
      error={fault}
      onChange={(e) => {
        setTyped(e.target.value)
        onValue(typedNumber(e.target.value, unit, system))
      }}
    />
  )
}
