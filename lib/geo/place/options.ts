import type { PlacingOptions } from '../types'

/**
 * Common practice and our own choices, without a source but where PlacingOptions names one. A splice is in reach within
 * 15 m plus two sigma; nobody on the ground moves faster than 35 m/s; GNSS errors of ten minutes are half common to all.
 */
export const DEFAULT_PLACING: PlacingOptions = {
  minProbability: 0.9,
  searchM: 30,
  platformSearchM: 120,
  spliceReachM: 15,
  switchShare: 0.001,
  declaredShare: 0.99,
  sharedSigmaShare: 0.5,
  aircraftBreakMs: 600_000,
  aircraftBreakM: 2_000,
  groundSpeedMS: 35,
  minTrackReadings: 5,
  maxCandidates: 4,
}
