'use client'
import { memo } from 'react'
import { Choice } from '@/components/ui/choice'
import { Part } from '@/components/calculator/part'
import { Button } from '@/components/ui/button'
import { Chooser } from '@/components/ui/chooser'
import { Field } from '@/components/ui/field'
import type { Policy } from '@/lib/condition/policy'
import type { CircuitSummary } from '@/lib/contract/contract'
import { FIGURES, LOADS, ratedFigure, type LoadingInputs, type PutLoading, type WeatherKey } from './address'
import { AIR, ANGLE, OWN_A, SHARE, SUN, WIND, type SliderSpec } from './numbers'
import { SliderField } from './slider-field'
import { FIGURE_WORDS, LOAD_WORDS } from './words'

interface Props {
  inputs: LoadingInputs
  put: PutLoading
  policy: Policy
  circuits: readonly CircuitSummary[]
  /** How many lie on the map that Operations came from; null: none was handed over. */
  onMap: number | null
}

/** What is asked: which circuits, in what weather, at what current. */
export function LoadingForm({ inputs, put, policy, circuits, onMap }: Props) {
  return (
    <form aria-label="Question" onSubmit={(e) => e.preventDefault()}>
      <Part title="Circuits">
        <CircuitChooser inputs={inputs} put={put} circuits={circuits} onMap={onMap} />
      </Part>
      <LoadPart inputs={inputs} put={put} />
      <WeatherPart inputs={inputs} put={put} policy={policy} />
    </form>
  )
}

function CircuitChooser({ inputs, put, circuits, onMap }: Omit<Props, 'policy'>) {
  return (
    <>
      <Chooser
        name="Choose circuits"
        chosen={inputs.circuit?.length ? inputs.circuit : undefined}
        options={circuits.map((c) => ({ value: c.id, label: c.line_name ? `${c.name}, ${c.line_name}` : c.name })).sort((a, b) => a.label.localeCompare(b.label))}
        onChoose={(circuit) => put({ circuit: circuit ?? null, bbox: null })}
        short={(id) => circuits.find((c) => c.id === id)?.name ?? String(id)}
        none={onMap === null ? 'none chosen' : 'those on the map'}
        clear="None"
      />
      {onMap !== null && !inputs.circuit?.length && <p>On the map: {onMap === 1 ? '1 circuit' : `${onMap} circuits`}</p>}
    </>
  )
}

const LOAD_OPTIONS = LOADS.map((value) => ({ value, label: LOAD_WORDS[value] }))
const FIGURE_OPTIONS = FIGURES.map((value) => ({ value, label: FIGURE_WORDS[value] }))

function LoadPart({ inputs, put }: Pick<Props, 'inputs' | 'put'>) {
  const own = inputs.load === 'own'
  return (
    <Part
      title="Current"
      note={own ? 'One figure for every section shown: write what it is and where it comes from. The planner’s figures section by section can be imported with the loads.' : undefined}>
      <Choice label="Take" value={inputs.load} options={LOAD_OPTIONS} onValue={(load) => put({ load, share: null })} />
      {own && <Choice label="The figure is" value={inputs.figure} options={FIGURE_OPTIONS} onValue={(figure) => put({ figure })} />}
      {own ? (
        <SliderField spec={OWN_A} value={inputs.a} onValue={(a) => put({ a })} />
      ) : (
        <SliderField spec={SHARE} value={inputs.share ?? 100} onValue={(share) => put({ share: share === 100 ? null : share })} />
      )}
      {own && (
        <Field
          label="Source"
          value={inputs.source ?? ''}
          maxLength={120}
          autoComplete="off"
          hint="Stands beside every result and on paper."
          onChange={(e) => put({ source: e.target.value === '' ? null : e.target.value })}
        />
      )}
    </Part>
  )
}

const WEATHER: readonly [WeatherKey, SliderSpec][] = [['air', AIR], ['wind', WIND], ['angle', ANGLE], ['sun', SUN]]

function WeatherPart({ inputs, put, policy }: Pick<Props, 'inputs' | 'put' | 'policy'>) {
  const atRating = WEATHER.every(([key]) => inputs[key] === null)
  return (
    <Part title="Weather" note="Surfaces are those of the policy’s rating weather, and so is the elevation of sections without their own.">
      {WEATHER.map(([key, spec]) => (
        <WeatherSlider key={key} name={key} spec={spec} value={inputs[key]} rated={ratedFigure(key, policy)} put={put} />
      ))}
      <Button size="small" disabled={atRating} onClick={() => put({ air: null, wind: null, angle: null, sun: null })}>
        {atRating ? 'Rating weather' : 'Back to rating weather'}
      </Button>
    </Part>
  )
}

const WeatherSlider = memo(function WeatherSlider({ name, spec, value, rated, put }: {
  name: WeatherKey; spec: SliderSpec; value: number | null; rated: number; put: PutLoading
}) {
  return <SliderField spec={spec} value={value ?? rated} onValue={(now) => put({ [name]: now === rated ? null : now })} />
})
