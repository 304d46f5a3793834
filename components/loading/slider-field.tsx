'use client'
import { NumberField } from '@/components/calculator/number-field'
import { rangeFault, shownText } from '@/components/calculator/numbers'
import { useUnitSystem } from '@/components/ui/preferences'
import { useLocalText } from '@/components/ui/use-local-text'
import { convert } from '@/lib/units/convert'
import type { UnitSystem } from '@/lib/units/format'
import type { SliderSpec } from './numbers'
import css from './slider-field.module.css'

interface Props {
  spec: SliderSpec
  value: number | null
  onValue(value: number | null): void
  hint?: string
}

const toShown = (value: number, { unit, shown }: SliderSpec, system: UnitSystem): number => {
  const to = shown[system]
  return unit === null || to === null ? value : convert(value, unit, to)
}

const fromShown = (value: number, { unit, shown }: SliderSpec, system: UnitSystem): number => {
  const from = shown[system]
  return Number((unit === null || from === null ? value : convert(value, from, unit)).toPrecision(12))
}

/** A number to write, and a slider to feel what it does: both the same value. */
export function SliderField({ spec, value, onValue, hint }: Props) {
  const [system] = useUnitSystem()
  const local = useLocalText()
  const { from, to, step } = spec.slide[system]
  return (
    <div className={css.field}>
      <NumberField className={css.number} spec={spec} value={value} onValue={onValue} hint={hint} error={value === null ? undefined : rangeFault(value, spec, system)} />
      <input
        className={`${css.slider} no-print`}
        type="range"
        aria-label={`${local(spec.label)}, slider`}
        aria-valuetext={value === null ? 'not set' : shownText(value, spec, system)}
        min={from}
        max={to}
        step={step}
        value={value === null ? from : toShown(value, spec, system)}
        onChange={(e) => onValue(fromShown(Number(e.target.value), spec, system))}
      />
    </div>
  )
}
