import type { UrgentReading } from '@/lib/contract/contract'
import { formatDateTime } from '@/lib/units/time'
import { doubtSentence } from '@/lib/intake/report/conductor-doubt'
import { many } from './words'

/** The one way in which an urgent notice is answered, as every screen says it. */
export const TOLD = 'Control room told'

/** When, and who noted it: '15 Mar 2026 03:10 MDT, noted by operator'. */
export function toldText({ acknowledged_at: at, acknowledged_by: by }: Pick<UrgentReading, 'acknowledged_at' | 'acknowledged_by'>, timeZone: string): string {
  return at === null ? '' : `${formatDateTime(Date.parse(at), timeZone)}, noted by ${by ?? 'somebody'}`
}

export const withdrawnText = ({ file_name: file }: NonNullable<UrgentReading['withdrawn']>): string => `reading withdrawn by undo of ${file}`

/** Why the ratio is provisional; empty where it is not. */
export function provisionalText({ provisional }: Pick<UrgentReading, 'provisional'>): string {
  if (!provisional) return ''
  const { conductor, conductor_uohm: conductorUohm, expected_uohm: expectedUohm } = provisional
  return doubtSentence({ conductor, conductorUohm, expectedUohm })
}

/** Those nobody has been told of first, then critical before urgent, then the higher ratio; a sighting without one leads its class. */
export function waitingThenWorst(a: UrgentReading, b: UrgentReading): number {
  const told = (r: UrgentReading) => (r.acknowledged_at === null ? 0 : 1)
  const rank = (r: UrgentReading) => (r.class === 'critical' ? 0 : 1)
  return told(a) - told(b) || rank(a) - rank(b) || (b.ratio ?? Infinity) - (a.ratio ?? Infinity) || a.reading_id - b.reading_id
}

const classWords = (readings: readonly UrgentReading[]): string => {
  const critical = readings.filter((r) => r.class === 'critical').length
  const urgent = readings.length - critical
  return [critical > 0 ? `${critical} critical` : '', urgent > 0 ? `${urgent} urgent` : ''].filter(Boolean).join(' and ')
}

/** How many of which class, how many of them nobody has been told of, and who sees them. */
export function openingWords(readings: readonly UrgentReading[], dryRun: boolean): string {
  const waiting = readings.filter((r) => r.acknowledged_at === null)
  const one = readings.length === 1
  const own = readings.every((r) => r.basis === 'reading')
  const by = own ? `by ${one ? 'its' : 'their'} own numbers` : 'by their own numbers or with what else is known of the splice'
  const what = one
    ? `One reading is ${readings[0]?.class} ${own ? by : 'with what else is known of its splice'}`
    : `${many(readings.length, 'reading')}, ${classWords(readings)} ${by}`
  if (dryRun) return `${what}, whether or not the place is settled. Nothing was kept, so operations does not see this yet.`
  if (waiting.length === 0) return `${what}, and the control room knows of ${one ? 'it' : 'all of them'}.`
  if (waiting.length < readings.length) return `${what}. Not told yet: ${classWords(waiting)}.`
  return `${what}, whether or not the place is settled. Operations sees ${one ? 'it' : 'them'} already.`
}
