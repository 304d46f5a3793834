import type { BelievedSides } from './believed-sides'
import type { Context } from './context'
import { isComplete, type MeasuredSession } from './history'
import type { InfraredNote } from './types'
import { anyAtLeast } from './within-crimp'

/**
 * When the splice was last looked at in a way that a failing one could not have passed, ms since 1970 UTC: every interface of its kind read,
 * or an infrared picture to which no rule of `infraredNote` applied. Absent where nothing did, or nobody knows when. A shield wire carries
 * no load: no picture of it shows a failing splice. Since the last repair only.
 * @param readAtMs when every interface was last read
 */
export function conclusiveAt(
  readAtMs: number | undefined, infrared: readonly InfraredNote[], context: Context,
): number | undefined {
  if (context.facts.kind === 'shield-wire splice') return undefined
  let newest = readAtMs
  for (const { spliceTempC, inconclusive, takenAtMs } of infrared) if (spliceTempC !== undefined && inconclusive.length === 0) newest = later(newest, takenAtMs)
  return newest
}

/** When every interface was last read, ms since 1970 UTC: a splice that is bad on one side only shows by resistance, and may not in the mean that infrared sees. */
export function everyInterfaceAt(sessions: readonly MeasuredSession[], believed: BelievedSides, context: Context): number | undefined {
  if (context.facts.kind === 'shield-wire splice') return undefined
  let newest = everySideAt(believed, context)
  for (const { visits } of sessions) for (const { measured, readings } of visits) if (isComplete(measured, context)) newest = later(newest, readings.at(-1)?.takenAtMs)
  return newest
}

const later = (newestMs: number | undefined, takenAtMs: number | undefined): number | undefined =>
  (takenAtMs === undefined || takenAtMs <= (newestMs ?? -Infinity) ? newestMs : takenAtMs)

/** Where several visits together read every interface, the day of the oldest of them. */
function everySideAt({ sides }: BelievedSides, context: Context): number | undefined {
  if (sides.length < context.interfaces.count || anyAtLeast(sides)) return undefined
  let oldest = Infinity
  for (const { takenAtMs } of sides) {
    if (takenAtMs === undefined) return undefined
    oldest = Math.min(oldest, takenAtMs)
  }
  return sides.length === 0 ? undefined : oldest
}
