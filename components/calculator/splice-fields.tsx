'use client'
import { useId } from 'react'
import { Field } from '@/components/ui/field'
import { CONDUCTORS } from '@/lib/condition'
import { Choice } from '@/components/ui/choice'
import { FITTINGS } from './address'
import type { FormProps } from './form'
import { NumberEntry } from './number-entry'
import { Part } from './part'

const LABELS: Partial<Record<(typeof FITTINGS)[number], string>> = { 't-tap': 'T-tap', 'automatic': 'Automatic splice, gripping by tension' }

const KINDS = FITTINGS.map((kind) => ({ value: kind, label: LABELS[kind] ?? kind.charAt(0).toUpperCase() + kind.slice(1) }))

/** The fitting and its conductor. `fitting`: which code words the conductor reading would fit. */
export function SpliceFields({ form, fitting }: { form: FormProps; fitting: string | undefined }) {
  const { inputs, put, beside } = form
  const list = useId()
  return (
    <Part title="Splice and conductor">
      <Choice label="Kind" value={inputs.kind} onValue={(kind) => put({ kind })} options={KINDS} error={beside.get('kind')} />
      <Field
        label="Conductor, code word"
        list={list}
        autoComplete="off"
        autoCapitalize="words"
        spellCheck={false}
        value={inputs.conductor ?? ''}
        hint={fitting}
        error={beside.get('conductor')}
        onChange={(e) => put({ conductor: e.target.value === '' ? null : e.target.value })}
      />
      <datalist id={list}>
        {CONDUCTORS.map(({ code, type, size }) => (
          <option key={code} value={code}>
            {size === undefined ? type : `${type} ${size}`}
          </option>
        ))}
      </datalist>
    </Part>
  )
}

/** What the reading is judged by beside its conductor. */
export function SectionFields({ form }: { form: FormProps }) {
  return (
    <Part title="Section and barrel" optional note="For the class edges, the current and the heat balance. What is left empty is taken as usual, and said.">
      <NumberEntry name="max" form={form} />
      <NumberEntry name="rating" form={form} />
      <NumberEntry name="kv" form={form} />
      <NumberEntry name="n" form={form} />
      <NumberEntry name="od" form={form} />
      {form.inputs.by === 'resistance' && <NumberEntry name="length" form={form} />}
    </Part>
  )
}
