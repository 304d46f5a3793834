import { convert, convertDifference, unitLabel, type Unit } from '@/lib/units/convert'
import { WIND_DIGITS, type UnitSystem } from '@/lib/units/format'

/** One number of the calculator: kept in `unit`, written as the reader writes it. */
export interface NumberSpec {
  label: string
  /** Null: it has no unit. */
  unit: Unit | null
  shown: Record<UnitSystem, Unit | null>
  /** In `unit`; outside these it is refused by name and never reckoned with. */
  least: number
  greatest: number
  whole?: true
  /** A difference of two temperatures: 0.05 °C is 0.09 °F. */
  difference?: true
  /** How many digits are shown where that is fewer than usual; what was typed stays as it was typed. */
  digits?: number
  /** What to look at, by the value that was refused. */
  remedy: string | ((value: number) => string)
}

/** 0.053 was 53 in another unit; nothing reads below zero but crossed leads or a slip of the pen. */
function ofResistance(value: number): string {
  if (value <= 0) return 'A resistance is over zero: look at the sign, and at the leads.'
  return value < 0.5 ? 'Was it read in milliohm?' : 'Look at the unit, and at the range of the instrument.'
}

const uohm = (label: string): NumberSpec => ({
  label, unit: 'uohm', shown: { metric: 'uohm', us: 'uohm' }, least: 0.5, greatest: 50_000, remedy: ofResistance,
})
const span = (label: string): NumberSpec => ({
  label, unit: 'm', shown: { metric: 'mm', us: 'in' }, least: 0.05, greatest: 1, remedy: 'Measure between the two electrodes.',
})
const temperature = (label: string, least: number, greatest: number): NumberSpec => ({
  label, unit: 'c', shown: { metric: 'c', us: 'f' }, least, greatest, remedy: 'Look at the unit: °C or °F?',
})
const current = (label: string): NumberSpec => ({
  label, unit: 'a', shown: { metric: 'a', us: 'a' }, least: 0, greatest: 20_000, remedy: 'Write the line current per phase.',
})
const emissivity = (label: string): NumberSpec => ({
  label, unit: null, shown: { metric: null, us: null }, least: 0.15, greatest: 1,
  remedy: 'Weathered aluminium has about 0.7 to 0.9, bright metal less.',
})
const ratio = (label: string): NumberSpec => ({
  label, unit: null, shown: { metric: null, us: null }, least: 0.05, greatest: 100, remedy: 'Write side over conductor.',
})

/** By the name each has in the address. Ranges are those of the engine. */
export const NUMBERS = {
  a: uohm('Side A'),
  b: uohm('Side B'),
  c: uohm('Conductor'),
  c2: uohm('Conductor, other end'),
  span: span('Electrode span'),
  cspan: span('Span on the conductor'),
  inboard: { ...span('Inward from the mouth'), least: -0.5, greatest: 1, remedy: 'Below zero means outside the barrel.' },
  ct: temperature('Conductor temperature', -50, 250),
  air: temperature('Air', -50, 60),
  i: current('Line current per phase'),
  a0: ratio('Ratio of side A'),
  b0: ratio('Ratio of side B'),
  ts: temperature('Splice', -50, 400),
  tc: temperature('Conductor', -50, 400),
  emis: emissivity('True emissivity of the surface'),
  refl: temperature('Reflected', -170, 400),
  cemis: emissivity('Camera’s emissivity setting'),
  crefl: temperature('Reflected, set', -170, 400),
  dist: { label: 'Distance', unit: 'm', shown: { metric: 'm', us: 'ft' }, least: 0.5, greatest: 2000, remedy: 'From the lens to the splice.' },
  ifov: {
    label: 'One pixel sees (IFOV)', unit: 'mrad', shown: { metric: 'mrad', us: 'mrad' }, least: 0.02, greatest: 20,
    remedy: 'It stands in the data sheet of the lens.',
  },
  wind: {
    label: 'Wind', unit: 'm_s', shown: { metric: 'm_s', us: 'mph' }, least: 0, greatest: 30, digits: WIND_DIGITS, remedy: 'Across the line, at its height.',
  },
  n: { label: 'Subconductors', unit: null, shown: { metric: null, us: null }, least: 1, greatest: 8, whole: true, remedy: 'Count those of one phase.' },
  max: temperature('Operating at most at', 50, 250),
  rating: { ...current('Rating per phase'), least: 1, remedy: 'Per phase, all subconductors together.' },
  kv: { label: 'Voltage', unit: 'kv', shown: { metric: 'kv', us: 'kv' }, least: 1, greatest: 1500, remedy: 'Between phases, in kilovolts.' },
  od: { label: 'Barrel, outside diameter', unit: 'mm', shown: { metric: 'mm', us: 'in' }, least: 4, greatest: 80, remedy: 'Across the round of the barrel.' },
  length: { label: 'Barrel, length', unit: 'm', shown: { metric: 'mm', us: 'in' }, least: 0.05, greatest: 2, remedy: 'From mouth to mouth.' },
} as const satisfies Record<string, NumberSpec>

export type NumberKey = keyof typeof NUMBERS
export const NUMBER_KEYS = Object.keys(NUMBERS) as NumberKey[]

/** Enough to say every figure a person reads off an instrument, and few enough to hide the last bits of a conversion. */
const SHOWN_DIGITS = 6

export const shownUnit = ({ shown }: NumberSpec, system: UnitSystem): string | undefined => {
  const unit = shown[system]
  return unit === null ? undefined : unitLabel(unit)
}

const convertsBy = ({ difference }: NumberSpec) => (difference ? convertDifference : convert)

export function shownNumber(value: number, spec: NumberSpec, system: UnitSystem): string {
  const { unit, shown, digits = SHOWN_DIGITS } = spec
  const to = shown[system]
  return String(Number((unit === null || to === null ? value : convertsBy(spec)(value, unit, to)).toPrecision(digits)))
}

/** A number with its unit as the reader writes it. */
export const shownText = (value: number, spec: NumberSpec, system: UnitSystem): string => {
  const label = shownUnit(spec, system)
  return label === undefined ? shownNumber(value, spec, system) : `${shownNumber(value, spec, system)} ${label}`
}

/** What was typed, in the unit it is kept in; null for nothing, or why it is no number. */
export function typedNumber(text: string, spec: NumberSpec, system: UnitSystem): number | null | { fault: string } {
  const { unit, shown } = spec
  const plain = text.replace(/[\s\u00a0\u202f]/g, '').replace('−', '-')
  if (plain === '') return null
  const grouped = /^(-?\d{1,3}),(\d{3})$/.exec(plain)
  if (grouped) return { fault: `Write ${grouped[1]}${grouped[2]} or ${Number(`${grouped[1]}.${grouped[2]}`)}: the comma may mean either.` }
  const value = Number(/^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(plain) ? plain.replaceAll(',', '') : plain.replace(',', '.'))
  if (!Number.isFinite(value)) return { fault: 'This is no number. Write one such as 12.5, without its unit.' }
  const from = shown[system]
  return Number((unit === null || from === null ? value : convertsBy(spec)(value, from, unit)).toPrecision(12))
}

/** What is wrong with a number by itself, with the remedy; undefined where nothing is. */
export function rangeFault(value: number, spec: NumberSpec, system: UnitSystem): string | undefined {
  const { least, greatest, whole } = spec
  const remedy = typeof spec.remedy === 'string' ? spec.remedy : spec.remedy(value)
  if (whole && !Number.isInteger(value)) return `Write a whole number. ${remedy}`
  if (value >= least && value <= greatest) return undefined
  return `${shownText(value, spec, system)} cannot be right: it lies between ${shownNumber(least, spec, system)} and ${shownText(greatest, spec, system)}. ${remedy}`
}
