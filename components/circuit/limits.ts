import type { CircuitJson } from '@/lib/contract/api'
import { allowedA } from '@/lib/condition/governing-limit'
import type { CurrentLimitJson, SectionSpliceLimit } from '@/lib/contract/limits'

type Section = CircuitJson['sections'][number]

/** What one part of a circuit may carry: its splice's figure where a splice allows less than the section, and the rating after it. */
export interface PartLimit {
  section: Section
  splice: SectionSpliceLimit | null
  /** Without a figure, and perhaps allowing less: no figure stands without them. */
  mayBeLower: SectionSpliceLimit[]
  /** The lowest limit in force of its splices. */
  inForce: CurrentLimitJson | null
  /** Limits that have lapsed, the lowest first: until an engineer has said what may flow, nobody knows. */
  lapsed: CurrentLimitJson[]
}

/** What of a part governs: of its lowest limit in force and its splices' advised figures the lower. */
export type PartGovernedBy = 'in-force' | 'advised' | 'rating' | 'not-known'

export function governedBy({ splice, inForce, section, mayBeLower }: PartLimit): PartGovernedBy {
  const advisedA = splice?.line_a ?? null
  if (inForce && allowedA(inForce.line_a) <= allowedA(advisedA ?? Infinity)) return 'in-force'
  if (advisedA !== null) return 'advised'
  return mayBeLower.length > 0 || section.rating_a === null ? 'not-known' : 'rating'
}

/** What governs in figures, per phase; null where nothing has one. */
export function governingA(part: PartLimit): number | null {
  const figures = { 'in-force': part.inForce?.line_a, 'advised': part.splice?.line_a, 'rating': part.section.rating_a, 'not-known': null }
  return figures[governedBy(part)] ?? null
}

/** The lowest lapsed limit, where what governs without it lies above it: then whom to ask comes before any figure. */
export function askFirst(part: PartLimit): CurrentLimitJson | null {
  const [lowest] = part.lapsed
  return lowest && lowest.line_a < (governingA(part) ?? Infinity) ? lowest : null
}

export const isLimited = ({ splice, mayBeLower, inForce, lapsed }: PartLimit): boolean => splice !== null || mayBeLower.length > 0 || inForce !== null || lapsed.length > 0

export const splicesOf = ({ counts }: Pick<CircuitJson, 'counts'>): number => Object.values(counts).reduce((sum, n) => sum + n, 0)

/** Nothing limits it but its rating, because nobody has read a splice conclusively. */
export const isUnread = (circuit: Pick<CircuitJson, 'counts'>, of: PartLimit): boolean =>
  !isLimited(of) && splicesOf(circuit) > 0 && splicesOf(circuit) === circuit.counts.unknown

/** The through line first, then its taps: what a tap may carry limits nobody but the tap. */
export function partLimits({ sections, splice_limits: limits, limits: register }: Pick<CircuitJson, 'sections' | 'splice_limits' | 'limits'>): { main: PartLimit | null; taps: PartLimit[] } {
  const parts = sections.map((section): PartLimit => {
    const own = limits.filter(({ section_id: id }) => id === section.id)
    const said = register.filter(({ section_id: id }) => id === section.id).sort((a, b) => a.line_a - b.line_a)
    return {
      section, splice: own.find(({ figure }) => figure) ?? null,
      // Of a splice with a limit in force somebody has said what it may carry.
      mayBeLower: own.filter(({ figure, splice_id: spliceId }) => !figure && !said.some((one) => one.standing === 'in-force' && one.splice_id === spliceId)),
      inForce: said.find(({ standing }) => standing === 'in-force') ?? null, lapsed: said.filter(({ standing }) => standing === 'ask-engineer'),
    }
  })
  const main = parts.find(({ section }) => section.name === 'main') ?? (parts.length === 1 ? parts[0] : undefined) ?? null
  return { main, taps: parts.filter((part) => part !== main) }
}

/** Apparent power in MVA of three phases: √3 times line voltage in kV times current per phase in A. */
export const apparentPowerMva = (voltageKv: number, currentA: number): number => (Math.sqrt(3) * voltageKv * currentA) / 1000
