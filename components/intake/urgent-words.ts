import type { UrgentReading } from '@/lib/contract/contract'
import { many } from './words'

/** Those nobody has been told of first, then critical before urgent, then the higher ratio; a sighting without one leads its class. */
export function waitingThenWorst(a: UrgentReading, b: UrgentReading): number {
  const told = (r: UrgentReading) => (r.acknowledged_at === null ? 0 : 1)
  const rank = (r: UrgentReading) => (r.class === 'critical' ? 0 : 1)
  return told(a) - told(b) || rank(a) - rank(b) || (b.ratio ?? Infinity) - (a.ratio ?? Infinity) || a.reading_id - b.reading_id
}

/** How many of which class, and who sees them. */
export function openingWords(readings: readonly UrgentReading[], dryRun: boolean): string {
  const one = readings.length === 1
  const critical = readings.filter((r) => r.class === 'critical').length
  const urgent = readings.length - critical
  const classes = [critical > 0 ? `${critical} critical` : '', urgent > 0 ? `${urgent} urgent` : ''].filter(Boolean).join(' and ')
  const what = one
    ? `One reading is ${critical === 1 ? 'critical' : 'urgent'} by its own numbers`
    : `${many(readings.length, 'reading')}, ${classes} by their own numbers`
  const who = dryRun ? 'Nothing was kept, so operations does not see this yet.' : `Operations sees ${one ? 'it' : 'them'} already.`
  return `${what}, whether or not the place is settled. ${who}`
}
