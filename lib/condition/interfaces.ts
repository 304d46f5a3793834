import type { SpliceFacts, SpliceKind } from './types'

export type Side = 'A' | 'B'

/** The current-carrying interfaces of a kind of fitting, and which of them lie under a compressed barrel. */
export interface FittingInterfaces {
  /** How many ratios make the measurement complete. A reading carries two. */
  count: number
  names: Record<Side, string>
  barrelSides: readonly Side[]
}

const BOTH: readonly Side[] = ['A', 'B']
const barrel: FittingInterfaces = { count: 2, names: { A: 'side A', B: 'side B' }, barrelSides: BOTH }
const plain = (count: number, a: string, b: string): FittingInterfaces => ({ count, names: { A: a, B: b }, barrelSides: [] })

/** Common practice, no source: a bolted pad has one interface, parallel-groove and wedge one to each conductor. */
const BY_KIND: Record<SpliceKind, FittingInterfaces> = {
  'full-tension splice': barrel,
  'jumper splice': barrel,
  'repair sleeve': barrel,
  'dead-end': { count: 2, names: { A: 'conductor to barrel', B: 'pad to terminal' }, barrelSides: ['A'] },
  't-tap': plain(3, 'leg A', 'leg B'),
  'bolted pad': plain(1, 'the pad', 'the pad, second reading'),
  'parallel-groove': plain(2, 'conductor A', 'conductor B'),
  'wedge': plain(2, 'conductor A', 'conductor B'),
  'shield-wire splice': plain(2, 'side A', 'side B'),
  'other': plain(2, 'side A', 'side B'),
}

export const interfacesOf = (kind: SpliceKind): FittingInterfaces => BY_KIND[kind]

/** Why a fitting gets no class by ratio: it grips by tension alone, or it carries no load current. Null where it gets one. */
export function whyNotByRatio(facts: SpliceFacts): 'automatic' | 'shield-wire' | null {
  if (facts.kind === 'shield-wire splice') return 'shield-wire'
  return facts.fittingType !== undefined && /\bautomatic\b|tension[- ]?gripping/i.test(facts.fittingType) ? 'automatic' : null
}
