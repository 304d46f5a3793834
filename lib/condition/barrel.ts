import type { Conductor } from './conductor-table'

/** A barrel is bored this much wider than its conductor, mm; pressing moves the metal and keeps its area. From memory. */
const BORE_CLEARANCE_MM = 0.5

/** Metal area of a barrel, mm²: the ring between outside diameter and bore. */
export function barrelAreaMm2(barrelOdMm: number, conductorDiameterMm: number): number {
  const boreMm = conductorDiameterMm + BORE_CLEARANCE_MM
  return (Math.PI / 4) * (barrelOdMm * barrelOdMm - boreMm * boreMm)
}

/**
 * Resistance of a length of bare barrel over the same length of conductor, from their metal areas; 0.31 … 0.44 for usual
 * barrels. A side that reads hardly more than this had both electrodes on the barrel.
 * @returns null where the barrel is not larger than the conductor
 */
export function barrelOnlyRatio(barrelOdMm: number, conductor: Conductor): number | null {
  const areaMm2 = barrelAreaMm2(barrelOdMm, conductor.diameterMm)
  return areaMm2 > 0 ? conductor.areaAlMm2 / areaMm2 : null
}

/**
 * What a new splice with perfect interfaces reads, by the share of the electrode span on bare conductor (0 … 1): a ratio
 * of 0.80 is new with three quarters of the span on conductor and has aged with one quarter.
 */
export const newSpliceRatio = (bareShare: number, barrelRatio: number): number => bareShare + (1 - bareShare) * barrelRatio
