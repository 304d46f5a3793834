'use client'
import { NumberField } from './number-field'
import { NUMBERS, type NumberKey } from './numbers'
import type { FormProps } from './form'

/** A number of the calculator by its name. */
export function NumberEntry({ name, form, hint }: { name: NumberKey; form: FormProps; hint?: string }) {
  return (
    <NumberField
      spec={NUMBERS[name]}
      value={form.inputs[name]}
      hint={hint}
      error={form.beside.get(name)}
      onValue={(value, fault) => {
        form.put({ [name]: value })
        form.noteTyped(name, fault)
      }}
    />
  )
}
