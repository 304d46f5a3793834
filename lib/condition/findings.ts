import type { Policy } from './policy'
import type { OneSidedSign } from './posterior'
import type { Evidence, Finding, VisualEvidence } from './types'

/** Mechanical findings go to engineering and never move k; of these broken strands alone make a splice urgent. */
const MECHANICAL: ReadonlySet<Finding> = new Set<Finding>([
  'rust-bleed', 'broken-strands', 'slip', 'bow', 'bird-caging', 'gap', 'radiograph',
])

export const isMechanical = (finding: Finding): boolean => MECHANICAL.has(finding)

const ODDS: Partial<Record<Finding, keyof Policy['findings']>> = {
  'discolouration': 'discolouration', 'bulging': 'bulging', 'cracks': 'cracks', 'strands-lifted': 'strandsLifted',
  'bent-barrel': 'bentBarrel',
}

/** How many times likelier a finding is on a splice over `policy.findings.overK` than on one under it; 1 where it says nothing. */
export function oddsOfFinding(finding: Finding, policy: Policy): number {
  if (finding === 'none') return policy.findings.none
  const key = ODDS[finding]
  return key === undefined ? 1 : policy.findings[key]
}

/** What the eye found since the last repair. */
export interface VisualState {
  sign: OneSidedSign
  /** The finding that weighs most; null where none weighs. */
  telling: Finding | null
  mechanical: Finding[]
  brokenStrands: boolean
  /** Who saw them last, and when. */
  strandsSeen?: { readingId: number | string; takenAtMs?: number }
  readingIds: (number | string)[]
  newestAtMs?: number
}

/**
 * Findings do not go away by themselves, so those of all looks since the repair count together. Signs of one overheated
 * barrel come together too: the strongest is taken and they are not multiplied. 'None' counts where nothing else was found.
 */
export function visualState(series: readonly Evidence[], policy: Policy): VisualState {
  const state: VisualState = {
    sign: { overK: policy.findings.overK, odds: 1 }, telling: null, mechanical: [], brokenStrands: false, readingIds: [],
  }
  let sawNone = false
  for (const evidence of series) {
    if (evidence.source !== 'visual') continue
    state.newestAtMs = evidence.takenAtMs ?? state.newestAtMs
    for (const finding of evidence.findings) {
      if (finding === 'none') sawNone = true
      else addFinding(state, finding, evidence, policy)
    }
  }
  if (sawNone && state.telling === null && state.mechanical.length === 0) {
    state.telling = 'none'
    state.sign = { overK: policy.findings.overK, odds: policy.findings.none }
  }
  return state
}

function addFinding(state: VisualState, finding: Finding, evidence: VisualEvidence, policy: Policy): void {
  if (!state.readingIds.includes(evidence.readingId)) state.readingIds.push(evidence.readingId)
  if (isMechanical(finding)) {
    if (!state.mechanical.includes(finding)) state.mechanical.push(finding)
    if (finding === 'broken-strands') {
      state.brokenStrands = true
      state.strandsSeen = { readingId: evidence.readingId, takenAtMs: evidence.takenAtMs }
    }
    return
  }
  const odds = oddsOfFinding(finding, policy)
  if (state.telling !== null && odds <= state.sign.odds) return
  state.telling = finding
  state.sign = { overK: policy.findings.overK, odds }
}
