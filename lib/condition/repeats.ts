import type { Policy } from './policy'
import { inConflict } from './posterior'
import { instrumentOf, instrumentUncertainty } from './uncertainty'

export interface Repeats {
  /** µΩ, those that are averaged. */
  values: number[]
  readingIds: (number | string)[]
  /** The lowest that was left out, µΩ; null where all agree. */
  againstUohm: number | null
}

/**
 * Repeats that neither the instrument's error nor electrodes set anew explain are never averaged: the worst stands with those near it,
 * and the others say that it has to be repeated. Else ten good readings behind a bad one would make a failing side sound.
 * @param values µΩ, of one side, one visit, one instrument and one electrode span; readingIds beside them
 */
export function settleRepeats(values: readonly number[], readingIds: readonly (number | string)[], instrument: string | undefined, policy: Policy): Repeats {
  const worst = Math.max(...values)
  const limit = instrumentOf(instrument, policy)
  const belief = (uohm: number) => ({ mean: uohm, sd: instrumentUncertainty(uohm, limit) })
  const stands = values.map((uohm) => worst <= policy.repeats.apartFactor * uohm || !inConflict(belief(worst), belief(uohm), policy))
  const left = values.filter((_, i) => !stands[i])
  return {
    values: values.filter((_, i) => stands[i]), readingIds: readingIds.filter((_, i) => stands[i]),
    againstUohm: left.length === 0 ? null : Math.min(...left),
  }
}
