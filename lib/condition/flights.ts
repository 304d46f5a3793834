import { HOUR_MS } from './limits'
import type { Policy } from './policy'
import type { InfraredNote } from './types'

/**
 * Pictures of one splice, oldest first, parted into flights, newest first: those of one survey within one visit belong
 * together. A picture without date or survey stands alone.
 */
export function flightsOf(notes: readonly InfraredNote[], policy: Policy): InfraredNote[][] {
  const flights: InfraredNote[][] = []
  for (const note of notes) {
    const flight = flights.find(([first]) => first !== undefined && sameFlight(first, note, policy.repeats.visitHours * HOUR_MS))
    if (flight) flight.push(note)
    else flights.push([note])
  }
  return flights.reverse()
}

const sameFlight = (a: InfraredNote, b: InfraredNote, withinMs: number): boolean =>
  a.survey !== undefined && a.survey === b.survey && a.takenAtMs !== undefined && b.takenAtMs !== undefined
  && Math.abs(a.takenAtMs - b.takenAtMs) <= withinMs
