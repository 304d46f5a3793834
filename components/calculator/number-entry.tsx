'use client'
import { NumberField } from './number-field'
import { NUMBERS, type NumberKey } from './numbers'
import type { FormProps } from './form'

/** A number of the calculator by its name. */
export function NumberEntry({ name, form, hint }: { name: NumberKey; form: FormProps; hint?: string }) {
  return (
    <NumberField spec={NUMBERS[name]} value={form.inputs[name]} onValue={(value) => form.put({ [name]: value })} hint={hint} error={form.beside.get(name)} />
  )
}
