'use client'
import { useState } from 'react'
import { Field } from '@/components/ui/field'
import { useUnitSystem } from '@/components/ui/preferences'
import { useLocalText } from '@/components/ui/use-local-text'
import { NUMBERS, shownNumber, shownUnit, typedNumber, type NumberKey, type NumberSpec } from './numbers'
import type { FormProps } from './form'

/** A number as it is typed: what is no number yet stays on screen, and what comes from the address replaces it. */
export function NumberEntry({ name, form, hint }: { name: NumberKey; form: FormProps; hint?: string }) {
  const spec: NumberSpec = NUMBERS[name]
  const [system] = useUnitSystem()
  const local = useLocalText()
  const [typed, setTyped] = useState<string | null>(null)
  const value = form.inputs[name]
  const read = typed === null ? null : typedNumber(typed, spec, system)
  const faulty = read !== null && typeof read === 'object' && value === null
  const shown = typed !== null && (faulty || read === value) ? typed : value === null ? '' : shownNumber(value, spec, system)
  return (
    <Field
      label={local(spec.label)}
      hint={hint}
      unit={shownUnit(spec, system)}
      inputMode={spec.least < 0 ? 'text' : 'decimal'}
      autoComplete="off"
      value={shown}
      error={faulty ? read.fault : form.beside.get(name)}
      onChange={(e) => {
        setTyped(e.target.value)
        const now = typedNumber(e.target.value, spec, system)
        form.put({ [name]: typeof now === 'number' ? now : null })
      }}
    />
  )
}
