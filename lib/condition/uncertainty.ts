import type { Policy } from './policy'

/** Limit of error of one reading: a share of it and a fixed part. */
export interface ErrorLimit {
  limitRel: number
  limitOffsetUohm: number
}

/** Standard uncertainty of a rectangular limit of error, µΩ: (share × reading + fixed part) / √3. */
export const instrumentUncertainty = (uohm: number, limit: ErrorLimit): number =>
  (limit.limitRel * uohm + limit.limitOffsetUohm) / Math.sqrt(3)

export const meanOf = (values: readonly number[]): number => {
  let sum = 0
  for (const value of values) sum += value
  return sum / values.length
}

/** Standard deviation of repeats (n − 1); 0 for fewer than two. */
function spreadOf(values: readonly number[]): number {
  if (values.length < 2) return 0
  const mean = meanOf(values)
  let squares = 0
  for (const value of values) squares += (value - mean) * (value - mean)
  return Math.sqrt(squares / (values.length - 1))
}

/**
 * Standard uncertainty of the mean of repeats with electrodes set anew: the larger of instrument and spread (common practice, no source).
 * Where the policy lets repeats narrow it, the scatter of the electrodes is less in a mean by √n; an instrument's gain and zero are the same
 * in every repeat, and no repeat takes them away.
 */
export function uncertaintyOfMean(values: readonly number[], instrumentU: number, policy: Policy): number {
  const scatter = spreadOf(values)
  return Math.max(instrumentU, policy.repeats.narrow ? scatter / Math.sqrt(values.length) : scatter)
}

/** Limit of error and least current of a named instrument, where the policy knows it, else the general ones. */
export function instrumentOf(name: string | undefined, policy: Policy): ErrorLimit & { minimumCurrentA: number } {
  const general = policy.instrument
  const own = name === undefined ? undefined : general.byName.find((i) => i.instrument.toLowerCase() === name.toLowerCase())
  if (!own) return general
  return {
    limitRel: own.limitRel ?? general.limitRel,
    limitOffsetUohm: own.limitOffsetUohm ?? general.limitOffsetUohm,
    minimumCurrentA: own.minimumCurrentA ?? general.minimumCurrentA,
  }
}
