import type { BelievedSides } from './believed-sides'
import type { Context } from './context'
import { isComplete, type MeasuredSession } from './history'
import type { InfraredNote } from './types'

/**
 * When the splice was last looked at in a way that a failing one could not have passed, ms since 1970 UTC: every interface of its kind read,
 * or an infrared picture to which no rule of `infraredNote` applied. Absent where nothing did, or nobody knows when. A shield wire carries
 * no load: no picture of it shows a failing splice. Since the last repair only.
 */
export function conclusiveAt(
  sessions: readonly MeasuredSession[], believed: BelievedSides, infrared: readonly InfraredNote[], context: Context,
): number | undefined {
  if (context.facts.kind === 'shield-wire splice') return undefined
  const times = [
    ...sessions.flatMap(({ visits }) => visits.filter(({ measured }) => isComplete(measured, context)).map(({ readings }) => readings.at(-1)?.takenAtMs)),
    everySideAt(believed, context),
    ...infrared.filter(({ spliceTempC, inconclusive }) => spliceTempC !== undefined && inconclusive.length === 0).map(({ takenAtMs }) => takenAtMs),
  ].filter((time) => time !== undefined)
  return times.length === 0 ? undefined : Math.max(...times)
}

/** Where several visits together read every interface, the day of the oldest of them. */
function everySideAt({ sides }: BelievedSides, context: Context): number | undefined {
  if (sides.length < context.interfaces.count) return undefined
  const oldest = Math.min(...sides.map(({ takenAtMs }) => takenAtMs ?? NaN))
  return Number.isNaN(oldest) ? undefined : oldest
}
