import type { Evidence, SpliceFacts } from './types'

/**
 * The facts with the day on which the fitting was last made new: a repair that its readings tell of renews the metal, whatever day of installation
 * stands on record. Pictures taken after it show metal of that age. @param series since the last repair, oldest first
 */
export function renewedFacts(facts: SpliceFacts, [first]: readonly Evidence[]): SpliceFacts {
  if (!first?.afterRepair || first.takenAtMs === undefined || first.takenAtMs <= (facts.installedAtMs ?? -Infinity)) return facts
  return { ...facts, installedAtMs: first.takenAtMs }
}
