import type { Corridor } from '@/lib/contract/corridors'
import { formatLength, type UnitSystem } from '@/lib/units/format'

/** 'on the same structures all along, 72.1 km', or how far each of its circuits is, of how much. */
export function togetherText({ circuits, throughout }: Pick<Corridor, 'circuits' | 'throughout'>, system: UnitSystem): string {
  const length = (m: number) => formatLength(m, system)
  if (throughout) return `on the same structures all along, ${length(Math.max(...circuits.map(({ together_m: m }) => m)))}`
  return `partly on the same structures: ${circuits.map(({ circuit, length_m: ofM, together_m: m }) => `${circuit} for ${length(m)} of ${length(ofM)}`).join(', ')}`
}

/** The same for a narrow row: 'partly together: 57 % of 2310, 100 % of 2320'. */
export function shortTogetherText({ circuits, throughout }: Pick<Corridor, 'circuits' | 'throughout'>, system: UnitSystem): string {
  if (throughout) return togetherText({ circuits, throughout }, system)
  return `partly together: ${circuits.map(({ circuit, length_m: ofM, together_m: m }) => `${Math.round((100 * m) / ofM)} % of ${circuit}`).join(', ')}`
}

export const NO_CORRIDOR = 'No two circuits hang on the same structures'
