import type { HeldFinding, SpliceDetail } from '@/lib/contract/contract'
import { formatRatio, formatResistance } from '@/lib/units/format'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { resistanceFigures } from './reading-figures'

export interface HeldWords {
  /** What holds the class. */
  finding: string
  /** Why the evidence now says something better. */
  since: string
  /** What would clear it. */
  needed: string
}

/** A held class in sentences: the finding first, then what came after it, then what is still needed. Ratios with the digits that tell them from `edges`. */
export function heldWords(
  { class: shown, measured_class: measured, hold }: Pick<SpliceDetail, 'class' | 'measured_class'> & { hold: HeldFinding }, edges: number[], timeZone: string,
): HeldWords {
  const day = (at: string) => formatDate(Date.parse(at), timeZone)
  const ratio = hold.ratio === null ? '' : `, ratio ${formatRatio(hold.ratio, edges)}`
  const source = hold.survey === null ? '' : ` (${hold.survey})`
  return {
    finding: `Held ${shown} by the finding of ${hold.found_at === null ? 'a day nobody noted' : day(hold.found_at)}${source}${ratio}.`,
    since: sinceWords(hold, measured, edges, timeZone),
    needed: neededWords(hold),
  }
}

function sinceWords({ withdrawn, moved, later }: HeldFinding, measured: string, edges: number[], timeZone: string): string {
  if (withdrawn) {
    const when = withdrawn.at === null ? '' : ` on ${formatDateTime(Date.parse(withdrawn.at), timeZone)}`
    return `Held by a reading that was withdrawn${when} by the undo of ${withdrawn.file_name}. That takes the reading back; it does not show that the splice is better.`
  }
  if (moved) return 'Its reading was since taken off this splice by hand. That takes the reading back; it does not show that the splice is better.'
  if (later) {
    return `A later reading, of ${formatDate(Date.parse(later.at), timeZone)}, is better: ratio ${formatRatio(later.ratio, edges)}, by itself ${later.class}.`
  }
  if (measured === 'unknown') return 'What counts now gives no usable ratio.'
  return `By the policy and line data of now the same evidence says ${measured}. That lowers no class by itself.`
}

function neededWords({ found_at: foundAt, good_readings: good, needed_readings: needed, apart_h: apartH }: HeldFinding): string {
  if (foundAt === null) return 'Nobody noted when it was measured, so no reading can be shown to be later: a named engineer decides, with a reason.'
  const missing = Math.max(1, needed - good)
  const more = good > 0 ? ' more' : ''
  const what = missing === 1 ? `one${more} independent good reading` : `${missing}${more} independent good readings`
  return `Still needed: ${what} of every side (another instrument, or ${apartH} h apart), or a named engineer’s decision with a reason.`
}

/** What the reading behind a held class read, before anything that came after it: 'Urgent rests on ...: side A 26.1 µΩ, side B ..., ratio 2.17.' */
export function heldReading(
  { class: shown, hold, readings }: Pick<SpliceDetail, 'class' | 'readings'> & { hold: HeldFinding }, edges: number[], timeZone: string,
): string {
  const day = hold.found_at === null ? 'a day nobody noted' : formatDate(Date.parse(hold.found_at), timeZone)
  const reading = readings.find(({ id }) => id === hold.reading_id)
  const figures = reading?.kind === 'resistance' ? resistanceFigures(reading) : null
  const read = figures === null ? [] : ([['side A', figures.sideAUohm], ['side B', figures.sideBUohm], ['conductor', figures.conductorUohm]] as const)
    .flatMap(([name, uohm]) => (uohm === null ? [] : [`${name} ${formatResistance(uohm)}`]))
  const found = hold.ratio === null ? 'seen, without a ratio' : `ratio ${formatRatio(hold.ratio, edges)}${figures ? ' on the worse side' : ''}`
  return `${shown.charAt(0).toUpperCase()}${shown.slice(1)} by the finding of ${day}: ${[...read, found].join(', ')}.`
}
