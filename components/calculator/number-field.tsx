'use client'
import { useState } from 'react'
import { Field } from '@/components/ui/field'
import { useUnitSystem } from '@/components/ui/preferences'
import { useLocalText } from '@/components/ui/use-local-text'
import { shownNumber, shownUnit, typedNumber, type NumberSpec } from './numbers'

interface Props {
  spec: NumberSpec
  value: number | null
  /** @param fault why what was typed is no number */
  onValue(value: number | null, fault: string | null): void
  hint?: string
  error?: string
  className?: string
}

/** A number as it is typed: what is no number yet stays on screen, and what comes from elsewhere replaces it. */
export function NumberField({ spec, value, onValue, hint, error, className }: Props) {
  const [system] = useUnitSystem()
  const local = useLocalText()
  const [typed, setTyped] = useState<string | null>(null)
  const read = typed === null ? null : typedNumber(typed, spec, system)
  const faulty = read !== null && typeof read === 'object' && value === null
  const shown = typed !== null && (faulty || read === value) ? typed : value === null ? '' : shownNumber(value, spec, system)
  return (
    <Field
      label={local(spec.label)}
      hint={hint}
      className={className}
      unit={shownUnit(spec, system)}
      inputMode={spec.least < 0 ? 'text' : 'decimal'}
      autoComplete="off"
      value={shown}
      error={faulty ? read.fault : error}
      onChange={(e) => {
        setTyped(e.target.value)
        const now = typedNumber(e.target.value, spec, system)
        onValue(typeof now === 'number' ? now : null, now !== null && typeof now === 'object' ? now.fault : null)
      }}
    />
  )
}
