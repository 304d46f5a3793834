import { HOUR_MS } from './limits'
import type { Policy } from './policy'
import type { Evidence, ResistanceEvidence } from './types'

const timeOf = (evidence: Evidence): number => evidence.takenAtMs ?? -Infinity

/**
 * The evidence since the last repair, oldest first; undated evidence counts as the oldest.
 * The readings marked 'after repair' that stand together at the end of their survey begin the series. An undated one cannot
 * say what came before it and ends nothing.
 */
export function currentSeries(evidence: readonly Evidence[]): readonly Evidence[] {
  if (evidence.length < 2) return evidence
  const sorted = [...evidence].sort((a, b) => compareTimes(timeOf(a), timeOf(b)))
  let last = sorted.length - 1
  while (last >= 0 && !endsSeries(sorted[last])) last--
  if (last < 0) return sorted
  let first = last
  while (first > 0 && endsSeries(sorted[first - 1]) && sorted[first - 1]?.survey === sorted[last]?.survey) first--
  return sorted.slice(first)
}

const compareTimes = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1)

const endsSeries = (evidence: Evidence | undefined): boolean =>
  evidence !== undefined && evidence.afterRepair && evidence.takenAtMs !== undefined

/** Readings of one visit that may be averaged: one instrument, one kind of test current. */
export interface Visit {
  readings: ResistanceEvidence[]
}

/** What was measured within one stretch of time. More than one visit where instruments or kinds of current differ. */
export interface Session {
  visits: Visit[]
  mixedCurrent: boolean
}

/**
 * Resistance readings, oldest first, parted into sessions: each reaches `visitHours` back from its newest reading, so
 * that a run of readings through a month does not become one. Undated readings are one session. Newest session first.
 */
export function sessionsOf(readings: readonly ResistanceEvidence[], policy: Policy): Session[] {
  if (readings.length === 0) return []
  if (readings.length === 1) return [{ visits: [{ readings: [...readings] }], mixedCurrent: false }]
  const reachMs = policy.repeats.visitHours * HOUR_MS
  const sessions: Session[] = []
  let end = readings.length
  while (end > 0) {
    const newest = readings[end - 1]?.takenAtMs
    let start = end - 1
    while (start > 0 && sameSession(readings[start - 1]?.takenAtMs, newest, reachMs)) start--
    sessions.push(sessionOf(readings.slice(start, end)))
    end = start
  }
  return sessions
}

function sameSession(atMs: number | undefined, newestMs: number | undefined, reachMs: number): boolean {
  if (atMs === undefined || newestMs === undefined) return atMs === newestMs
  return newestMs - atMs <= reachMs
}

function sessionOf(readings: ResistanceEvidence[]): Session {
  const instruments = namedValues(readings, (reading) => reading.instrument)
  const currents = namedValues(readings, (reading) => reading.testCurrent)
  if (instruments.size < 2 && currents.size < 2) return { visits: [{ readings }], mixedCurrent: false }
  const visits = new Map<string, Visit>()
  for (const reading of readings) {
    const key = `${keyOf(reading.testCurrent, currents)} ${keyOf(reading.instrument, instruments)}`
    const visit = visits.get(key)
    if (visit) visit.readings.push(reading)
    else visits.set(key, { readings: [reading] })
  }
  return { visits: [...visits.values()], mixedCurrent: currents.size > 1 }
}

const namedValues = (readings: readonly ResistanceEvidence[], of: (reading: ResistanceEvidence) => string | undefined): Set<string> => {
  const values = new Set<string>()
  for (const reading of readings) {
    const value = of(reading)
    if (value !== undefined) values.add(value)
  }
  return values
}

/** A blank cell joins the only name there is; among several it stands alone. */
const keyOf = (value: string | undefined, named: Set<string>): string => (named.size === 1 ? '' : (value ?? ''))
