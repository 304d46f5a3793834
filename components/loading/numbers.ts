import type { NumberSpec } from '@/components/calculator/numbers'
import type { UnitSystem } from '@/lib/units/format'

/** A number with the slider beside its field: how far it slides and in what steps, in the units the reader sees. */
export interface SliderSpec extends NumberSpec {
  slide: Record<UnitSystem, { from: number; to: number; step: number }>
}

const same = (from: number, to: number, step: number): SliderSpec['slide'] => ({ metric: { from, to, step }, us: { from, to, step } })

export const AIR: SliderSpec = {
  label: 'Air', unit: 'c', shown: { metric: 'c', us: 'f' }, least: -50, greatest: 60, digits: 3, remedy: 'Look at the unit: °C or °F?',
  slide: { metric: { from: -30, to: 50, step: 1 }, us: { from: -20, to: 120, step: 1 } },
}
export const WIND: SliderSpec = {
  label: 'Wind', unit: 'm_s', shown: { metric: 'm_s', us: 'mph' }, least: 0, greatest: 30, digits: 3, remedy: 'At the height of the line.',
  slide: { metric: { from: 0, to: 10, step: 0.1 }, us: { from: 0, to: 20, step: 0.2 } },
}
export const ANGLE: SliderSpec = {
  label: 'Wind to the line', unit: 'deg', shown: { metric: 'deg', us: 'deg' }, least: 0, greatest: 90,
  remedy: 'Along the line is 0, across it 90.', slide: same(0, 90, 5),
}
export const SUN: SliderSpec = {
  label: 'Sun, W/m²', unit: null, shown: { metric: null, us: null }, least: 0, greatest: 1500,
  remedy: 'Night is 0, high sun in clear air about 1000.', slide: same(0, 1200, 20),
}
export const SHARE: SliderSpec = {
  label: 'Of that current, %', unit: null, shown: { metric: null, us: null }, least: 0, greatest: 300,
  remedy: 'The current as it is, is 100.', slide: same(10, 200, 1),
}
export const OWN_A: SliderSpec = {
  label: 'Current per phase', unit: 'a', shown: { metric: 'a', us: 'a' }, least: 0, greatest: 20_000,
  remedy: 'Per phase, all subconductors together.', slide: same(0, 3000, 10),
}
export const NETD: NumberSpec = {
  label: 'Noise (NETD)', unit: 'c', shown: { metric: 'c', us: 'f' }, difference: true, least: 0, greatest: 2, digits: 3,
  remedy: 'It stands in the data sheet, often as 50 mK, which is 0.05 °C or 0.09 °F.',
}
export const IFOV: NumberSpec = {
  label: 'One pixel sees (IFOV)', unit: 'mrad', shown: { metric: 'mrad', us: 'mrad' }, least: 0.02, greatest: 20,
  remedy: 'It stands in the data sheet of the lens.',
}
export const DISTANCE: NumberSpec = {
  label: 'Lens to splice', unit: 'm', shown: { metric: 'm', us: 'ft' }, least: 0.5, greatest: 2000, digits: 3, remedy: 'As the rules of flight and approach allow.',
}
