import { err, ok, type Result } from '@/lib/result/result'
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
    const refusal = refusalOf(quantity as HeatQuantity, values[quantity as HeatQuantity])
    if (refusal) return refusal
  }
  return null
}

function refusalOf(quantity: HeatQuantity, value: number | undefined): Refusal | null {
  if (value === undefined) return null
  const [least, greatest] = HEAT_RANGES[quantity]
  return value >= least && value <= greatest ? null : { quantity, value: Number.isFinite(value) ? value : null, least, greatest }
}

export const weatherRefusal = ({ ambientC, windMS, windAngleDeg, sunWPerM2, elevationM }: Weather): Refusal | null =>
  refusalOf('ambientC', ambientC) ?? refusalOf('windMS', windMS) ?? refusalOf('windAngleDeg', windAngleDeg)
  ?? refusalOf('sunWPerM2', sunWPerM2) ?? refusalOf('elevationM', elevationM)

export const cylinderRefusal = ({ diameterM, emissivity, absorptivity }: Cylinder): Refusal | null =>
  refusalOf('diameterM', diameterM) ?? refusalOf('emissivity', emissivity) ?? refusalOf('absorptivity', absorptivity)

/** @param k how many times a bare conductor's resistance it is: 1 for the conductor itself */
export function resistanceRefusal(resistance: LineResistance, k = 1): Refusal | null {
  const at20 = ohmPerMAt(resistance, 20)
  return refusalOf('ohmPerM', at20 / k) ?? refusalOf('coefficientPerK', ohmPerMK(resistance) / at20)
}

/** Everything a balance of this body needs to be in range. */
export const bodyRefusal = (body: HeatedCylinder, weather: Weather, k = 1): Refusal | null =>
  cylinderRefusal(body) ?? resistanceRefusal(body.resistance, k) ?? weatherRefusal(weather)

export const currentRefusal = (currentA: number): Refusal | null => refusalOf('currentA', currentA)
export const surfaceRefusal = (surfaceC: number): Refusal | null => refusalOf('surfaceC', surfaceC)

/** The value that `work` gives, unless something was refused before. */
export const unlessRefused = <T>(refusal: Refusal | null, work: () => T): Result<T, Refusal> => (refusal ? err(refusal) : ok(work()))
