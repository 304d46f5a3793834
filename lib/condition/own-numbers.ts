import { byTableIn, type ByTable } from './by-table'
import { rankOf } from './classify'
import { doubtIn, type ConductorDoubt } from './conductor-doubt'
import { contextFor, UNKNOWN_FACTS, type Context } from './context'
import { classByInfrared, infraredState } from './infrared-belief'
import { heatAlone, heatReason } from './heat-alone'
import { infraredNote } from './infrared-note'
import { whyNotByRatio, type Side } from './interfaces'
import { hasLowCurrent, measure } from './measure'
import type { Policy } from './policy'
import { infraredRuleReason } from './reasons-infrared'
import { worstOfSides, type Signs } from './side'
import type { AssessmentFlag, ConditionClass, Evidence, InfraredEvidence, Reason, ResistanceEvidence, SpliceFacts } from './types'

/** One reading judged by its own numbers, before anybody knows which splice it belongs to. */
export interface OwnNumbers {
  class: ConditionClass
  /** True for urgent and critical: operations see it at once, placed or not, and the control room is called. */
  urgent: boolean
  /** Measured ratio of the worse side, or of the splice by infrared; absent for a sighting. */
  ratio?: number
  side?: Side
  /** Where the conductor reading does not fit the conductor on record: the ratio is provisional. */
  doubt?: ConductorDoubt
  /** Where no conductor reading could be used and the table's stands in. */
  byTable?: ByTable
  flags: AssessmentFlag[]
  reasons: Reason[]
}

/**
 * The class of one reading by its own numbers, for the immediate notice; the rules of the policy without history and
 * without ageing.
 * - resistance: the worse of its sides. Too little test current is flagged and does not silence it.
 * - visual: broken strands are urgent; nothing else is by itself.
 * - infrared: by the heat balance where the picture is conclusive, which takes the conductor of the section. Else by how much it is hotter
 *   than its own conductor, where the published table says to repair immediately; never by how warm it is over the air, which would call the
 *   control room for every loaded line.
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
      return ofInfrared(evidence, contextFor(known, policy))
  }
}

const nothing = (flags: AssessmentFlag[]): OwnNumbers => ({ class: 'unknown', urgent: false, flags, reasons: [] })

const NO_SIGNS: Signs = { firm: { overK: 1, odds: 1 }, windy: null }

function ofInfrared(evidence: InfraredEvidence, context: Context): OwnNumbers {
  const note = infraredNote(evidence, context)
  const hot: AssessmentFlag[] = note.hot ? ['infrared-hot'] : []
  const picture = whyNotByRatio(context.facts) ? null : infraredState([note], evidence.takenAtMs ?? 0, context.policy).counts
  if (!picture) {
    const heat = whyNotByRatio(context.facts) ? null : heatAlone([note], undefined, context.policy)
    if (!heat) return nothing(hot)
    return {
      class: heat.class, urgent: heat.class === 'urgent', flags: hot,
      reasons: [heatReason(heat)],
    }
  }
  const found = classByInfrared(picture, NO_SIGNS, context)
  return {
    class: found.class, urgent: rankOf(found.class) >= rankOf('urgent'), ratio: note.k, flags: ['infrared-only', ...hot],
    reasons: [infraredRuleReason({ found, picture }, context)],
  }
}

function ofResistance(evidence: ResistanceEvidence, context: Context): OwnNumbers {
  const measured = measure([evidence], context)
  const worst = worstOfSides(measured.sides, context)
  const flags = [...measured.flags, ...(worst?.side.flags ?? [])]
  if (hasLowCurrent(evidence, context)) flags.push('low-test-current')
  if (!worst) return { class: 'unknown', urgent: false, flags, reasons: measured.reasons }
  const sound = worst.class === 'sound' && measured.unproved.length > 0
  return {
    class: sound ? 'unknown' : worst.class, urgent: rankOf(worst.class) >= rankOf('urgent'), ratio: worst.side.ratio, side: worst.side.side, doubt: doubtIn(measured.reasons),
    byTable: worst.side.reference === 'table' ? byTableIn(measured.reasons) : undefined, flags,
    reasons: [...measured.reasons, ...worst.side.reasons],
  }
}
