import type { StayReason } from '@/lib/contract/review-acts'
import type { PlacementCandidate, ReviewCause } from '@/lib/geo'

/** A place this much as likely as the best is no worse a guess: a person looks at the reading itself. */
const SIMILAR_SHARE = 1 / 3
/** Two new splices nearer to each other along a line than this may be one, which nobody says of many at once. */
export const APART_M = 25

export interface WaitingReading {
  isUrgent: boolean
  cause: ReviewCause | null
  phase: string | null
  /** Likeliest first. */
  candidates: readonly PlacementCandidate[]
}

export type Best = { at: PlacementCandidate; spliceId: number | null } | { stays: StayReason }

/** The one place a waiting reading most likely has, and the splice there, null: a new one; or why a person has to look at it alone. */
export function bestOf({ isUrgent, cause, phase, candidates }: WaitingReading): Best {
  if (isUrgent) return { stays: 'urgent' }
  const at = candidates.reduce<PlacementCandidate | undefined>((best, one) => (best === undefined || one.probability > best.probability ? one : best), undefined)
  if (at === undefined) return { stays: 'no-candidate' }
  const others = candidates.filter((one) => one !== at)
  const byCircuit = new Map<number, number>()
  for (const one of others) if (one.circuitId !== at.circuitId) byCircuit.set(one.circuitId, (byCircuit.get(one.circuitId) ?? 0) + one.probability)
  if ([...byCircuit.values()].some((share) => share >= SIMILAR_SHARE * at.probability)) return { stays: 'similar-circuits' }
  if (others.some((one) => one.circuitId === at.circuitId && one.probability >= SIMILAR_SHARE * at.probability)) return { stays: 'similar-places' }
  const [first, second] = at.splices.filter((splice) => phase === null || splice.phase === undefined || splice.phase === phase)
  if (second) return { stays: 'several-splices' }
  if (!first && cause === 'no-position') return { stays: 'place-not-known' }
  return { at, spliceId: first?.spliceId ?? null }
}

/** The new splices that an act makes, told apart by section, place and phase. */
export class NewPlaces {
  private places = new Map<number, { lineDistanceM: number; phase: string | null }[]>()

  /** Takes a place for a new splice; false where another may be the same. */
  take(sectionId: number, lineDistanceM: number, phase: string | null): boolean {
    const there = this.places.get(sectionId) ?? []
    const isFree = !there.some((one) => Math.abs(one.lineDistanceM - lineDistanceM) <= APART_M && (one.phase === null || phase === null || one.phase === phase))
    if (isFree) {
      there.push({ lineDistanceM, phase })
      this.places.set(sectionId, there)
    }
    return isFree
  }
}
