'use client'
import { Field } from '@/components/ui/field'
import { useLocalText } from '@/components/ui/use-local-text'
import { Choice } from '@/components/ui/choice'
import type { FormProps } from './form'
import { NumberEntry } from './number-entry'
import { Part } from './part'

const NOT_NOTED = { value: 'not-noted', label: 'Not noted' } as const

/** Without these there is no answer: three micro-ohm readings, or one picture with its load. */
export function MainFields({ form }: { form: FormProps }) {
  const local = useLocalText()
  return form.inputs.by === 'resistance' ? (
    <Part title="Three readings" note="Side A faces the structure of the lower line distance. All three over the same electrode span.">
      <NumberEntry name="a" form={form} />
      <NumberEntry name="b" form={form} />
      <NumberEntry name="c" form={form} />
      <NumberEntry name="span" form={form} />
      <ReadOn form={form} />
    </Part>
  ) : (
    <Part title="The picture" note={local('The conductor is read at least {1 m} from the mouth of the barrel: it shows the wind at the line.')}>
      <NumberEntry name="ts" form={form} />
      <NumberEntry name="tc" form={form} />
      <NumberEntry name="air" form={form} />
      <NumberEntry name="i" form={form} />
      <ReadOn form={form} />
    </Part>
  )
}

/** A splice ages from the day it was read. */
function ReadOn({ form: { inputs, put, beside } }: { form: FormProps }) {
  return (
    <Field
      type="date"
      label="Read on"
      optional
      hint="Empty: judged as if read today, its current as if long ago."
      value={inputs.on ?? ''}
      error={beside.get('on')}
      onChange={(e) => put({ on: e.target.value === '' ? null : e.target.value })}
    />
  )
}

/** How three readings were taken, and what was read before. */
export function ResistanceFields({ form }: { form: FormProps }) {
  const { inputs, put, beside } = form
  return (
    <>
      <Part title="How they were taken" optional>
        <NumberEntry name="inboard" form={form} hint="Of the barrel electrode; below zero is off the barrel." />
        <NumberEntry name="cspan" form={form} hint="Where it was another one." />
        <NumberEntry name="c2" form={form} />
        <Choice
          label="Measured"
          value={inputs.test ?? NOT_NOTED.value}
          options={[NOT_NOTED, { value: 'live-ac', label: 'Live, with the line’s own ac' }, { value: 'dead-dc', label: 'Dead, with the instrument’s dc' }]}
          error={beside.get('test')}
          onValue={(test) => put({ test: test === NOT_NOTED.value ? null : test })}
        />
        <NumberEntry name="i" form={form} />
        <NumberEntry name="ct" form={form} />
        <NumberEntry name="air" form={form} />
      </Part>
      <Part title="Last time" optional note="Shows whether the sides were exchanged since. It does not count for the class.">
        <NumberEntry name="a0" form={form} />
        <NumberEntry name="b0" form={form} />
      </Part>
    </>
  )
}

/** Weather and camera of one picture. */
export function InfraredFields({ form }: { form: FormProps }) {
  const { inputs, put, beside } = form
  return (
    <>
      <Part title="Surface and weather" optional>
        <NumberEntry name="emis" form={form} />
        <NumberEntry name="refl" form={form} hint="Usually the sky." />
        <NumberEntry name="wind" form={form} />
        <Choice
          label="Sun"
          value={inputs.sun ?? NOT_NOTED.value}
          options={[NOT_NOTED, { value: 'none', label: 'None: night' }, { value: 'diffuse', label: 'Under cloud' }, { value: 'direct', label: 'Direct' }]}
          error={beside.get('sun')}
          onValue={(sun) => put({ sun: sun === NOT_NOTED.value ? null : sun })}
        />
      </Part>
      <Part title="Camera" optional note="Its own settings are taken out again and those of the surface put in. Leave them empty where the temperatures are true ones already.">
        <NumberEntry name="dist" form={form} />
        <NumberEntry name="ifov" form={form} />
        <Choice
          label="Band"
          value={inputs.band}
          options={[{ value: 'lw', label: 'Long wave, 7.5 to 14 µm' }, { value: 'mw', label: 'Mid wave, 3 to 5 µm' }]}
          onValue={(band) => put({ band })}
        />
        <NumberEntry name="cemis" form={form} />
        <NumberEntry name="crefl" form={form} />
      </Part>
    </>
  )
}
