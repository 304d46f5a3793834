'use client'
import { useLocalText } from '@/components/ui/use-local-text'
import { Choice } from './choice'
import type { FormProps } from './form'
import { NumberEntry } from './number-entry'
import { Part } from './part'

const NOT_NOTED = { value: 'not-noted', label: 'Not noted' } as const

/** Three micro-ohm readings, and how they were taken. */
export function ResistanceFields({ form }: { form: FormProps }) {
  const { inputs, put, beside } = form
  return (
    <>
      <Part title="Three readings" note="Side A faces the structure of the lower line distance. All three over the same electrode span.">
        <NumberEntry name="a" form={form} />
        <NumberEntry name="b" form={form} />
        <NumberEntry name="c" form={form} />
        <NumberEntry name="span" form={form} />
      </Part>
      <Part title="How they were taken">
        <NumberEntry name="inboard" form={form} optional />
        <NumberEntry name="cspan" form={form} optional hint="Where it was another one." />
        <NumberEntry name="c2" form={form} optional />
        <Choice
          label="Measured"
          optional
          value={inputs.test ?? NOT_NOTED.value}
          options={[NOT_NOTED, { value: 'live-ac', label: 'Live, with the line’s own ac' }, { value: 'dead-dc', label: 'Dead, with the instrument’s dc' }]}
          error={beside.get('test')}
          onValue={(test) => put({ test: test === NOT_NOTED.value ? null : test })}
        />
        <NumberEntry name="i" form={form} optional />
        <NumberEntry name="ct" form={form} optional />
        <NumberEntry name="air" form={form} optional />
      </Part>
      <Part title="Last time" note="Shows whether the sides were exchanged since. It does not count for the class.">
        <NumberEntry name="a0" form={form} optional />
        <NumberEntry name="b0" form={form} optional />
      </Part>
    </>
  )
}

/** One picture, with load, weather and camera. */
export function InfraredFields({ form }: { form: FormProps }) {
  const { inputs, put, beside } = form
  const local = useLocalText()
  return (
    <>
      <Part title="The picture" note={local('The conductor is read at least {1 m} from the mouth of the barrel: it shows the wind at the line.')}>
        <NumberEntry name="ts" form={form} />
        <NumberEntry name="tc" form={form} />
        <NumberEntry name="air" form={form} />
        <NumberEntry name="i" form={form} />
      </Part>
      <Part title="Surface and weather">
        <NumberEntry name="emis" form={form} optional />
        <NumberEntry name="refl" form={form} optional />
        <NumberEntry name="wind" form={form} optional />
        <Choice
          label="Sun"
          optional
          value={inputs.sun ?? NOT_NOTED.value}
          options={[NOT_NOTED, { value: 'none', label: 'None: night' }, { value: 'diffuse', label: 'Under cloud' }, { value: 'direct', label: 'Direct' }]}
          error={beside.get('sun')}
          onValue={(sun) => put({ sun: sun === NOT_NOTED.value ? null : sun })}
        />
      </Part>
      <Part title="Camera" note="Its own settings are taken out again and those of the surface put in. Leave them empty where the temperatures are true ones already.">
        <NumberEntry name="dist" form={form} optional />
        <NumberEntry name="ifov" form={form} optional />
        <Choice
          label="Band"
          value={inputs.band}
          options={[{ value: 'lw', label: 'Long wave, 7.5 to 14 µm' }, { value: 'mw', label: 'Mid wave, 3 to 5 µm' }]}
          onValue={(band) => put({ band })}
        />
        <NumberEntry name="cemis" form={form} optional />
        <NumberEntry name="crefl" form={form} optional />
      </Part>
    </>
  )
}
