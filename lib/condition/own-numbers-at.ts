import { classRank } from './classify'
import { conductorDoubt } from './conductor-doubt'
import { ownNumbersClass, type OwnNumbers } from './own-numbers'
import type { Policy } from './policy'
import type { Evidence, SpliceFacts } from './types'

/** What a survey finds is taken for a full-tension splice, and so is what a picture shows while nobody knows the fitting. */
const asFound = (facts: SpliceFacts): SpliceFacts => (facts.kind === 'other' ? { ...facts, kind: 'full-tension splice' } : facts)

/**
 * What a reading says by its own numbers wherever it may be: bare, and with the conductor and temperature of each place, the worst of them.
 * Its conductor reading tells places apart: while it fits one of them, those where it could not be are left out.
 */
export function ownNumbersAt(evidence: Evidence, places: readonly SpliceFacts[], policy: Policy): OwnNumbers {
  const fitting = evidence.source === 'resistance' ? places.filter((facts) => !conductorDoubt(evidence, facts, policy)) : places
  let worst = ownNumbersClass(evidence, undefined, policy)
  for (const facts of fitting.length > 0 ? fitting : places) {
    const own = ownNumbersClass(evidence, evidence.source === 'infrared' ? asFound(facts) : facts, policy)
    const by = classRank(own.class) - classRank(worst.class)
    if (by > 0 || (by === 0 && (own.doubt ? 1 : 0) >= (worst.doubt ? 1 : 0) && (own.ratio ?? 0) >= (worst.ratio ?? 0))) worst = own
  }
  return worst
}
