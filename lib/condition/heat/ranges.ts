import { ohmPerMAt, ohmPerMK } from './line-resistance'
import type { Cylinder, HeatedCylinder, LineResistance, Weather } from './weather'

/** Where the balance holds and instruments read; outside it a value is refused by name and never becomes a number. */
export const HEAT_RANGES = {
  ambientC: [-50, 60],
  windMS: [0, 30],
  windAngleDeg: [-360, 360],
  sunWPerM2: [0, 1500],
  elevationM: [-100, 5000],
  /** Of a conductor or a barrel; the barrel of the largest conductors is over 70 mm. */
  diameterM: [0.004, 0.08],
  emissivity: [0.15, 0.98],
  absorptivity: [0.15, 0.98],
  /** Of a bare conductor. */
  ohmPerM: [1e-5, 5e-3],
  /** Of the resistance at 20 °C. Aluminium and copper lie near 0.004; a steel core under one layer adds to it. */
  coefficientPerK: [0, 0.01],
  k: [0.05, 100],
  /** Per subconductor. */
  currentA: [0, 3000],
  surfaceC: [-50, 400],
  barrelLengthM: [0.1, 1.5],
  /** Thermal conductivity times metal area; aluminium of 25 … 5000 mm² passes 0.005 … 1.2. */
  alongLineWMPerK: [0.001, 3],
} as const satisfies Record<string, readonly [number, number]>

export type HeatQuantity = keyof typeof HEAT_RANGES

/** A value that was not used: which, what it was and what would have been taken. */
export interface Refusal {
  quantity: HeatQuantity
  /** Null where it was no number at all. */
  value: number | null
  least: number
  greatest: number
}

/** Refusal of the first value out of its range; null where all are in. */
export function firstRefusal(values: Partial<Record<HeatQuantity, number>>): Refusal | null {
  for (const quantity in values) {
    const name = quantity as HeatQuantity
    const value = values[name]
    const refusal = value === undefined ? null : refusalOf(name, HEAT_RANGES[name], value)
    if (refusal) return refusal
  }
  return null
}

function refusalOf(quantity: HeatQuantity, range: readonly [number, number], value: number): Refusal | null {
  // By index: taking an array apart costs more than the rest of a balance.
  if (value >= range[0] && value <= range[1]) return null
  return { quantity, value: Number.isFinite(value) ? value : null, least: range[0], greatest: range[1] }
}

export const weatherRefusal = ({ ambientC, windMS, windAngleDeg, sunWPerM2, elevationM }: Weather): Refusal | null =>
  refusalOf('ambientC', HEAT_RANGES.ambientC, ambientC) ?? refusalOf('windMS', HEAT_RANGES.windMS, windMS)
  ?? refusalOf('windAngleDeg', HEAT_RANGES.windAngleDeg, windAngleDeg) ?? refusalOf('sunWPerM2', HEAT_RANGES.sunWPerM2, sunWPerM2) ?? refusalOf('elevationM', HEAT_RANGES.elevationM, elevationM)

export const cylinderRefusal = ({ diameterM, emissivity, absorptivity }: Cylinder): Refusal | null =>
  refusalOf('diameterM', HEAT_RANGES.diameterM, diameterM) ?? refusalOf('emissivity', HEAT_RANGES.emissivity, emissivity)
  ?? refusalOf('absorptivity', HEAT_RANGES.absorptivity, absorptivity)

/** @param k how many times a bare conductor's resistance it is: 1 for the conductor itself */
export function resistanceRefusal(resistance: LineResistance, k = 1): Refusal | null {
  const at20 = ohmPerMAt(resistance, 20)
  return refusalOf('ohmPerM', HEAT_RANGES.ohmPerM, at20 / k) ?? refusalOf('coefficientPerK', HEAT_RANGES.coefficientPerK, ohmPerMK(resistance) / at20)
}

/** Everything a balance of this body needs to be in range. */
export const bodyRefusal = (body: HeatedCylinder, weather: Weather, k = 1): Refusal | null =>
  cylinderRefusal(body) ?? resistanceRefusal(body.resistance, k) ?? weatherRefusal(weather)

export const currentRefusal = (currentA: number): Refusal | null => refusalOf('currentA', HEAT_RANGES.currentA, currentA)
export const kRefusal = (k: number): Refusal | null => refusalOf('k', HEAT_RANGES.k, k)
export const surfaceRefusal = (surfaceC: number): Refusal | null => refusalOf('surfaceC', HEAT_RANGES.surfaceC, surfaceC)
