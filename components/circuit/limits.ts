import type { CircuitJson } from '@/lib/contract/api'

type Section = CircuitJson['sections'][number]

/** The section of the lowest normal rating; null where a section has none on record, because that one may be lower. */
export function limitingSection(sections: readonly Section[]): (Section & { rating_a: number }) | null {
  let lowest: (Section & { rating_a: number }) | null = null
  for (const section of sections) {
    const { rating_a: ratingA } = section
    if (ratingA === null) return null
    if (!lowest || ratingA < lowest.rating_a) lowest = { ...section, rating_a: ratingA }
  }
  return lowest
}

/** Apparent power in MVA of three phases: √3 times line voltage in kV times current per phase in A. */
export const apparentPowerMva = (voltageKv: number, currentA: number): number => (Math.sqrt(3) * voltageKv * currentA) / 1000
