import type { UrgentReading } from '@/lib/contract/urgent'
import { noCircuitWords, strangeCircuit } from '@/lib/intake/report/no-circuit'
import { perhapsAlso, placedText } from '@/lib/intake/report/placed-doubt'
import { noticeDoubt, tableSentence } from '@/lib/intake/report/conductor-doubt'
import { formatRatio, formatResistance, formatSure, formatTemperature, type UnitSystem } from '@/lib/units/format'
import { formatDateTime, formatTime } from '@/lib/units/time'
import { faultText } from './issue-words'
import { capital, readingName } from './reading-name'
import { many } from './words'

/** The one way in which an urgent notice is answered, as every screen says it. */
export const TOLD = 'Control room told'

/** Whom, when, and who noted it: 'Desk 2, 15 Mar 2026 03:10 MDT, noted by operator'. */
export function toldText(
  { acknowledged_at: at, acknowledged_by: by, told_to: whom, told_at: calledAt }: Pick<UrgentReading, 'acknowledged_at' | 'acknowledged_by' | 'told_to' | 'told_at'>,
  timeZone: string,
): string {
  return at === null ? '' : `${whom ? `${whom}, ` : ''}${formatDateTime(Date.parse(calledAt ?? at), timeZone)}, noted by ${by ?? 'somebody'}`
}

/** The last moment up to now at which the clock of a zone reads 'HH:MM'; null where that is no time of day. */
export function lastAt(clock: string, nowMs: number, timeZone: string): number | null {
  const read = /^([01]?\d|2[0-3])[:.]([0-5]\d)$/.exec(clock.trim())
  if (!read) return null
  const wanted = `${(read[1] ?? '').padStart(2, '0')}:${read[2]}`
  const minuteMs = 60_000
  // Minute by minute, so that a change of the clock needs no rule of its own.
  for (let back = 0; back <= 25 * 60; back++) {
    const atMs = Math.floor(nowMs / minuteMs - back) * minuteMs
    if (formatTime(atMs, timeZone).startsWith(wanted)) return atMs
  }
  return null
}

export const withdrawnText = ({ file_name: file }: NonNullable<UrgentReading['withdrawn']>): string => `reading withdrawn by undo of ${file}`

/** Why the ratio is provisional; empty where it is not. */
export function provisionalText({ provisional }: Pick<UrgentReading, 'provisional'>): string {
  if (!provisional) return ''
  return noticeDoubt(provisional)
}

/** What a ratio stands against where no conductor reading could be used; empty where one was. */
export const tableText = ({ by_table: table }: Pick<UrgentReading, 'by_table'>): string => (table ? tableSentence(table) : '')

/** A finding that engineering must see at once has no ratio. */
export const ratioText = ({ ratio, by_table: table }: Pick<UrgentReading, 'ratio' | 'by_table'>): string =>
  (ratio === null ? 'by what was seen' : `ratio ${formatRatio(ratio)}${table ? ' by the table\'s conductor, not measured' : ''}`)

type Where = Pick<UrgentReading, 'circuits' | 'says_circuit' | 'placement_state' | 'position_text' | 'position_basis' | 'other_circuits' | 'phase_not_confirmed'>

/**
 * As it is read out: '2310 (Kestrel Fork - Osprey Bench No. 1)', or where the circuit is not settled '2320 or 2310 at STR 122-123, phase A
 * top: circuit not settled'. The shares are for the eye, and stand in the row.
 */
export function spokenText(u: Where): string {
  if (u.circuits.length < 2) return [circuitsText(u), placeText(u)].filter(Boolean).join(', ')
  const names = u.circuits.map(({ circuit }) => circuit)
  const place = u.position_text === null ? '' : `${u.position_basis === 'nearest' ? ' near' : ' at'} ${u.position_text}`
  const strange = strangeCircuit(u)
  return `${names.slice(0, -1).join(', ')} or ${names.at(-1)}${place}: circuit not settled${strange === null ? '' : `, it names ${strange}`}`
}

/** By class, then the higher ratio; a sighting without one leads its class. A withdrawn one is never sorted below a milder class. */
export function worstFirst(a: UrgentReading, b: UrgentReading): number {
  const rank = (r: UrgentReading) => (r.class === 'critical' ? 0 : 1)
  const gone = (r: UrgentReading) => (r.withdrawn ? 1 : 0)
  return rank(a) - rank(b) || gone(a) - gone(b) || (b.ratio ?? Infinity) - (a.ratio ?? Infinity) || a.notice_id - b.notice_id
}

/** Whether its reading, or the file of a row that was never read, was taken back by an undo. It still waits to be told, and counts apart. */
const isTakenBack = (r: Pick<UrgentReading, 'withdrawn' | 'reading_id' | 'not_read'>): boolean =>
  r.withdrawn !== null || (r.reading_id === null && (r.not_read?.undone_at ?? null) !== null)

/** How many findings wait to be told, those that still stand first: 'The control room has not been told of 5 findings, 3 critical, and of 4 taken back since. Worst: '. */
export function untoldText(waiting: readonly UrgentReading[]): string {
  const told = 'The control room has not been told of'
  const back = waiting.filter(isTakenBack)
  const live = waiting.filter((one) => !isTakenBack(one))
  const counted = (of: readonly UrgentReading[], what: string) => {
    const critical = of.filter((one) => one.class === 'critical').length
    return `${of.length === 1 ? 'one' : of.length} ${what}${of.length > 1 && critical > 0 && critical < of.length ? `, ${critical} critical` : ''}`
  }
  if (waiting.length === 1 && back.length === 0) return `${told} one finding: `
  const standing = live.length === 0 ? '' : ` ${counted(live, live.length === 1 ? 'finding' : 'findings')}`
  const gone = back.length === 0 ? '' : live.length === 0 ? ` ${counted(back, back.length === 1 ? 'finding that was taken back since' : 'findings that were taken back since')}` : `, and of ${counted(back, 'taken back since')}`
  return `${told}${standing}${gone}${waiting.length === 1 ? ': ' : '. Worst: '}`
}

/** The circuit, or the candidates with how likely each is. */
export function circuitsText(u: Pick<UrgentReading, 'circuits' | 'says_circuit'> & Partial<Pick<UrgentReading, 'placement_state' | 'other_circuits'>>): string {
  const [only] = u.circuits
  if (!only) return u.says_circuit ? `names circuit ${u.says_circuit}, not on file` : 'circuit not known'
  const name = (c: UrgentReading['circuits'][number]) => (c.line_name ? `${c.circuit} (${c.line_name})` : c.circuit)
  // What is placed is settled, whatever it names.
  const strange = u.placement_state === 'review' ? strangeCircuit(u) : null
  const named = strange === null ? '' : `names circuit ${strange}; perhaps `
  if (u.circuits.length === 1) return named + name(only) + perhapsAlso(u)
  return `${named}one of ${u.circuits.map((c) => name(c) + (c.probability === null ? '' : `, ${formatSure(c.probability)}`)).join('; ')}`
}

/** Why no circuit is known: what it names, and whether it has a position to look from. */
export const noCircuitText = (u: Pick<UrgentReading, 'says_circuit' | 'lon'>): string => capital(noCircuitWords(u, true))

/** Where it is placed, what it says itself, or what lies nearest; empty where nothing is known. */
export function placeText(u: Pick<UrgentReading, 'position_text' | 'position_basis' | 'phase_not_confirmed'>): string {
  const { position_text: position, position_basis: basis } = u
  if (position === null) return ''
  if (basis === 'nearest') return `nearest ${position}`
  return basis === 'declared' ? `says ${position}` : placedText(position, u)
}

/** What a notice is about: the splice, the reading, or the row of its file. */
export function subjectText(u: UrgentReading, file?: string): string {
  if (u.reading_id === null && u.not_read) return file === u.not_read.file_name ? `Row ${u.not_read.row}` : `Row ${u.not_read.row} of ${u.not_read.file_name}`
  return u.splice ?? readingName(u.reading_key ?? '', u.row, file)
}

/** What a row that was not read measured, as far as it could be understood; empty of any other notice. */
export function rowNumbersText({ not_read: row }: Pick<UrgentReading, 'not_read'>, system: UnitSystem): string {
  if (!row) return ''
  const { side_a_uohm: a, side_b_uohm: b, conductor_uohm: conductor, splice_temp_c: temperatureC } = row.says
  return [
    a === null ? '' : `side A ${formatResistance(a)}`, b === null ? '' : `side B ${formatResistance(b)}`,
    conductor === null ? '' : `conductor ${formatResistance(conductor)}`, temperatureC === null ? '' : `splice ${formatTemperature(temperatureC, system)}`,
  ].filter(Boolean).join(', ')
}

/** Why a row was not read; empty where it was, or has been since. */
export function notReadText({ not_read: row }: Pick<UrgentReading, 'not_read'>): string {
  if (!row || row.read_since) return ''
  const undone = row.undone_at === null ? '' : ` Its import was undone.`
  return `Not read: ${row.why.map(faultText).join(' ')}${undone}`
}

/** Those nobody has been told of first, then critical before urgent, then the higher ratio; a sighting without one leads its class. */
export function waitingThenWorst(a: UrgentReading, b: UrgentReading): number {
  const told = (r: UrgentReading) => (r.acknowledged_at === null ? 0 : 1)
  return told(a) - told(b) || worstFirst(a, b)
}

/** '3 critical and 1 urgent'. */
export const classWords = (readings: readonly Pick<UrgentReading, 'class'>[]): string => {
  const critical = readings.filter((r) => r.class === 'critical').length
  const urgent = readings.length - critical
  return [critical > 0 ? `${critical} critical` : '', urgent > 0 ? `${urgent} urgent` : ''].filter(Boolean).join(' and ')
}

/** '2 readings', '1 row that was not read', or both. */
function thingsText(notices: readonly UrgentReading[]): string {
  const rows = notices.filter((r) => r.reading_id === null).length
  const readings = notices.length - rows
  return [readings > 0 ? many(readings, 'reading') : '', rows > 0 ? many(rows, 'row that was not read', 'rows that were not read') : ''].filter(Boolean).join(' and ')
}

interface Opening {
  dryRun?: boolean
  /** Of a file that was imported before. */
  again?: boolean
  /** Notices that waited before this file came, of readings that it says again. */
  met?: readonly number[]
}

/** How many of which class, how many of them nobody has been told of, and who sees them. */
export function openingWords(readings: readonly UrgentReading[], { dryRun = false, again = false, met = [] }: Opening = {}): string {
  const waiting = readings.filter((r) => r.acknowledged_at === null)
  const one = readings.length === 1
  const own = readings.every((r) => r.basis !== 'assessment')
  const by = own ? `by ${one ? 'its' : 'their'} own numbers` : 'by their own numbers or with what else is known of the splice'
  const thing = readings[0]?.reading_id === null ? 'One row that was not read' : 'One reading'
  const what = one
    ? `${thing} is ${readings[0]?.class} ${own ? by : 'with what else is known of its splice'}`
    : `${thingsText(readings)}, ${classWords(readings)} ${by}`
  const earlier = waiting.filter((r) => met.includes(r.notice_id)).length
  if (dryRun) return `${what}, whether or not the place is settled. ${dryRunWords(readings.length, earlier)}`
  if (waiting.length === 0) return `${what}, and the control room knows of ${one ? 'it' : 'all of them'}.`
  const before = again ? ' It was announced when this file was first imported.' : earlier === 0 ? ''
    : earlier === waiting.length ? ' Announced with an earlier import.' : ` ${earlier} of them announced with an earlier import.`
  if (waiting.length < readings.length) return `${what}. Not told yet: ${classWords(waiting)}.${before}`
  return `${what}, whether or not the place is settled. Operations sees ${one ? 'it' : 'them'} already.${before}`
}

function dryRunWords(all: number, earlier: number): string {
  if (earlier === 0) return 'Nothing was kept, so operations does not see this yet.'
  if (earlier === all) return `Operations sees ${all === 1 ? 'it' : 'them'} already, from an earlier import.`
  return `Operations sees ${earlier} of them already, from an earlier import; nothing was kept of the rest, which it does not see yet.`
}
