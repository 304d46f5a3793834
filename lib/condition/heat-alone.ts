import type { Policy } from './policy'
import type { InfraredNote, MeasuredClass, Reason } from './types'

/** A picture that tells no ratio and is too hot to wait for one. */
export interface HeatAlone {
  note: InfraredNote
  /** Whether the published table calls so much heat a major discrepancy, or a probable deficiency. */
  major: boolean
  /** Major heat is urgent, but for wind by which infrared lifts no class over degraded. */
  class: Extract<MeasuredClass, 'degraded' | 'urgent'>
}

/**
 * The picture that shows a splice so much hotter than its own conductor that it has to be acted on, where the heat balance cannot say how bad
 * it is and nothing after it could have: whatever was wrong with the picture, heat is evidence of a defect and only its absence proves nothing.
 * Of several the newest of major heat, else the newest. Null in strong wind, in which no picture is evidence.
 * @param conclusiveAtMs the last look that could have shown a failing splice; it settles what a picture before it shows
 */
export function heatAlone(notes: readonly InfraredNote[], conclusiveAtMs: number | undefined, { infrared }: Policy): HeatAlone | null {
  const open = notes.filter((note) => tellsByHeat(note) && (conclusiveAtMs === undefined || note.takenAtMs === undefined || note.takenAtMs > conclusiveAtMs))
  const over = (leastK: number) => open.findLast(({ heatOverConductorK = 0 }) => heatOverConductorK > leastK)
  const worst = over(infrared.majorOverConductorK)
  if (worst) return { note: worst, major: true, class: worst.inconclusive.includes('wind') ? 'degraded' : 'urgent' }
  const probable = over(infrared.probableOverConductorK)
  return probable ? { note: probable, major: false, class: 'degraded' } : null
}

/** A conclusive picture does not: its ratio speaks. */
const tellsByHeat = ({ hot, k, inconclusive }: InfraredNote): boolean => hot && (k === undefined || inconclusive.length > 0)

/** Why heat alone makes the class. */
export const heatReason = ({ note, major, class: raisedTo }: HeatAlone): Reason => ({
  code: major ? 'major-heat' : 'probable-heat',
  values: { overConductorK: note.heatOverConductorK ?? null, takenAtMs: note.takenAtMs ?? null, class: raisedTo }, readingIds: [note.readingId],
})
