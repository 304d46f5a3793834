import { rankOf } from './classify'
import { doubtIn, type ConductorDoubt } from './conductor-doubt'
import { contextFor, UNKNOWN_FACTS, type Context } from './context'
import { infraredNote } from './infrared-note'
import { whyNotByRatio, type Side } from './interfaces'
import { hasLowCurrent, measure } from './measure'
import type { Policy } from './policy'
import { worstOfSides } from './side'
import type { AssessmentFlag, ConditionClass, Evidence, Reason, ResistanceEvidence, SpliceFacts } from './types'

/** One reading judged by its own numbers, before anybody knows which splice it belongs to. */
export interface OwnNumbers {
  class: ConditionClass
  /** True for urgent and critical: operations see it at once, placed or not, and the control room is called. */
  urgent: boolean
  /** Measured ratio of the worse side; absent for a sighting. */
  ratio?: number
  side?: Side
  /** Where the conductor reading does not fit the conductor on record: the ratio is provisional. */
  doubt?: ConductorDoubt
  flags: AssessmentFlag[]
  reasons: Reason[]
}

/**
 * The class of one reading by its own numbers, for the immediate notice; the rules of the policy without history and
 * without ageing.
 * - resistance: the worse of its sides. Too little test current is flagged and does not silence it.
 * - visual: broken strands are urgent; nothing else is by itself.
 * - infrared: flagged as hot and never urgent here, since without a heat balance a temperature says nothing of the ratio
 *   at the current of the day; the published 'major discrepancy' would call the control room for every loaded line.
 * @param facts of the splice or its section where known; without them a side needs its own conductor reading
 */
export function ownNumbersClass(evidence: Evidence, facts: SpliceFacts | undefined, policy: Policy): OwnNumbers {
  const known = facts ?? UNKNOWN_FACTS
  switch (evidence.source) {
    case 'resistance':
      return whyNotByRatio(known) ? nothing(['not-assessed-by-ratio']) : ofResistance(evidence, contextFor(known, policy, false))
    case 'visual':
      return evidence.findings.includes('broken-strands')
        ? {
            class: 'urgent', urgent: true, flags: ['mechanical-finding'],
            reasons: [{ code: 'broken-strands', values: {}, readingIds: [evidence.readingId] }],
          }
        : nothing([])
    case 'infrared':
      return nothing(infraredNote(evidence, contextFor(known, policy)).hot ? ['infrared-hot'] : [])
  }
}

const nothing = (flags: AssessmentFlag[]): OwnNumbers => ({ class: 'unknown', urgent: false, flags, reasons: [] })

function ofResistance(evidence: ResistanceEvidence, context: Context): OwnNumbers {
  const measured = measure([evidence], context)
  const worst = worstOfSides(measured.sides, context)
  const flags = [...measured.flags, ...(worst?.side.flags ?? [])]
  if (hasLowCurrent(evidence, context)) flags.push('low-test-current')
  if (!worst) return { class: 'unknown', urgent: false, flags, reasons: measured.reasons }
  return {
    class: worst.class, urgent: rankOf(worst.class) >= rankOf('urgent'), ratio: worst.side.ratio, side: worst.side.side, doubt: doubtIn(measured.reasons), flags,
    reasons: [...measured.reasons, ...worst.side.reasons],
  }
}
