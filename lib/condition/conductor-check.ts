import { CONDUCTORS, temperatureFactor, type Conductor } from './conductor-table'
import type { Policy } from './policy'
import type { ResistanceEvidence } from './types'

/** dc resistance of a length of conductor by the table, µΩ. Length in m, temperature in °C. */
export const expectedUohm = (conductor: Conductor, spanM: number, temperatureC: number): number =>
  conductor.rdc20OhmPerKm * 1e3 * spanM * temperatureFactor(conductor.alpha20PerK, temperatureC)

export type ReferenceBand = 'ok' | 'warn' | 'suspect'

/**
 * How far a conductor reading may stand from the table. One aluminium layer over steel, read live, may stand higher.
 * @param deviation reading over expectation, less 1
 */
export function referenceBand(deviation: number, wideAbove: boolean, policy: Policy): ReferenceBand {
  const { okRel, suspectRel, suspectBelowShare, singleLayerUpperRel } = policy.reference
  if (1 + deviation < suspectBelowShare) return 'suspect'
  if (wideAbove && deviation > 0) return deviation <= singleLayerUpperRel ? 'ok' : 'suspect'
  const size = Math.abs(deviation)
  if (size <= okRel) return 'ok'
  return size <= suspectRel ? 'warn' : 'suspect'
}

/** Code words whose table resistance fits a conductor reading, nearest first: a wrong code word is the usual cause. */
export function conductorsThatFit(uohm: number, spanM: number, temperatureC: number, okRel: number, most = 4): string[] {
  return CONDUCTORS
    .map((conductor) => ({ code: conductor.code, away: Math.abs(uohm / expectedUohm(conductor, spanM, temperatureC) - 1) }))
    .filter(({ away }) => away <= okRel)
    .sort((a, b) => a.away - b.away)
    .slice(0, most)
    .map(({ code }) => code)
}

/** Conductor temperature that the readings tell, °C: measured, else air and a rise, else assumed. */
export function conductorTemperatureC(readings: readonly ResistanceEvidence[], policy: Policy): number {
  for (const { conductorTempC } of readings) if (conductorTempC !== undefined && Number.isFinite(conductorTempC)) return conductorTempC
  for (const { ambientC } of readings) {
    if (ambientC !== undefined && Number.isFinite(ambientC)) return ambientC + policy.reference.riseOverAirK
  }
  return policy.reference.assumedConductorC
}
