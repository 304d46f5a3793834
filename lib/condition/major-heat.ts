import type { InfraredNote, MeasuredClass } from './types'
import type { Policy } from './policy'

/** A picture that tells no ratio and is too hot to wait for one. */
export interface MajorHeat {
  note: InfraredNote
  /** In wind by which infrared lifts no class over degraded: degraded; else urgent. */
  class: Extract<MeasuredClass, 'degraded' | 'urgent'>
}

/**
 * The newest picture that shows a splice so much hotter than its own conductor that the published table says to repair immediately, where the
 * heat balance cannot say how bad it is and nothing after it could have: whatever was wrong with the picture, heat is evidence of a defect and
 * only its absence proves nothing. Null in strong wind, in which no picture is evidence.
 * @param conclusiveAtMs the last look that could have shown a failing splice; it settles what a picture before it shows
 */
export function majorHeat(notes: readonly InfraredNote[], conclusiveAtMs: number | undefined, policy: Policy): MajorHeat | null {
  const found = notes.findLast((note) => isMajor(note, policy) && (conclusiveAtMs === undefined || note.takenAtMs === undefined || note.takenAtMs > conclusiveAtMs))
  return found ? { note: found, class: found.inconclusive.includes('wind') ? 'degraded' : 'urgent' } : null
}

/** A conclusive picture is none: its ratio speaks. */
const isMajor = ({ hot, heatOverConductorK, k, inconclusive }: InfraredNote, { infrared }: Policy): boolean =>
  hot && heatOverConductorK !== undefined && heatOverConductorK > infrared.majorOverConductorK && (k === undefined || inconclusive.length > 0)
