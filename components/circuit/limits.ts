import type { CircuitJson } from '@/lib/contract/api'
import type { SectionSpliceLimit } from '@/lib/contract/limits'

type Section = CircuitJson['sections'][number]

/** What one part of a circuit may carry: its splice's figure where a splice allows less than the section, and the rating after it. */
export interface PartLimit {
  section: Section
  splice: SectionSpliceLimit | null
  /** Without a figure, and perhaps allowing less: no figure stands without them. */
  mayBeLower: SectionSpliceLimit[]
}

/** The through line first, then its taps: what a tap may carry limits nobody but the tap. */
export function partLimits({ sections, splice_limits: limits }: Pick<CircuitJson, 'sections' | 'splice_limits'>): { main: PartLimit | null; taps: PartLimit[] } {
  const parts = sections.map((section): PartLimit => {
    const own = limits.filter(({ section_id: id }) => id === section.id)
    return { section, splice: own.find(({ figure }) => figure) ?? null, mayBeLower: own.filter(({ figure }) => !figure) }
  })
  const main = parts.find(({ section }) => section.name === 'main') ?? (parts.length === 1 ? parts[0] : undefined) ?? null
  return { main, taps: parts.filter((part) => part !== main) }
}

/** Apparent power in MVA of three phases: √3 times line voltage in kV times current per phase in A. */
export const apparentPowerMva = (voltageKv: number, currentA: number): number => (Math.sqrt(3) * voltageKv * currentA) / 1000
