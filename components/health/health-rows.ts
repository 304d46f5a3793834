import type { ConclusiveAge } from './evidence-age'
import { classRank, CONDITION_CLASSES } from '@/lib/condition'
import type { CircuitHealth, CircuitSummary, ClassCounts } from '@/lib/contract/contract'

export interface HealthRow {
  id: number
  circuit: string
  /** Line name and ends, as operations speaks of it. */
  names: string
  voltageKv: number | null
  lengthM: number
  counts: ClassCounts
  /** Of the sound ones, how many nobody measured again in time. */
  soundPast: number
  spliceCount: number
  worst: CircuitHealth['worst_splice']
  /** Readings in review that may be of this circuit. */
  unsettled: CircuitSummary['unsettled']
  /** Splices whose response time is over, counted from when they were found. */
  overdue: CircuitHealth['overdue']
  /** And from when they were first shown here. */
  late: CircuitHealth['past_response']
  lookedAt: number
  conclusive: number
  age: ConclusiveAge
  spanPhases: number
  lastSurveyedOn: string | null
  /** The greatest last known load of its sections, A per phase. */
  lastLoadA: number | null
  /** Of its splices, in force and lapsed. */
  limits: CircuitHealth['limits']
}

/** Whether no splice of a circuit has a class: nothing is known of it, which is never good. */
export const isUnknown = ({ counts, spliceCount }: Pick<HealthRow, 'counts' | 'spliceCount'>): boolean => spliceCount > 0 && counts.unknown === spliceCount

/** 'Elm Line · Elm to Oak'; a line named after its ends says them once. */
export function lineNames(c: Pick<CircuitSummary, 'line_name' | 'from' | 'to'>): string {
  const ends = [c.from, c.to].filter(Boolean)
  const saysEnds = c.line_name !== null && ends.length > 0 && ends.every((end) => c.line_name?.includes(end ?? ''))
  return [c.line_name, saysEnds ? '' : ends.join(' to ')].filter(Boolean).join(' · ')
}

const NO_EVIDENCE: ConclusiveAge = { conclusive_oldest_on: null, conclusive_newest_on: null, conclusive_stale_share: null, conclusive_stale_span_phases: 0, every_interface_span_phases: 0 }

const NO_LIMITS: CircuitHealth['limits'] = { in_force: 0, ask_engineer: 0, lowest_in_force: null, lowest_ask_engineer: null }

const NONE_LATE = { degraded: 0, urgent: 0, critical: 0 }

/** One row a circuit; a circuit without a roll-up yet has its summary's counts and no coverage. */
export function healthRows(circuits: readonly CircuitSummary[], health: readonly CircuitHealth[]): HealthRow[] {
  const byId = new Map(health.map((h) => [h.circuit_id, h]))
  return circuits.map((c) => {
    const h = byId.get(c.id)
    return {
      id: c.id,
      circuit: c.name,
      names: lineNames(c),
      voltageKv: c.voltage_kv,
      lengthM: c.length_m,
      counts: c.counts,
      soundPast: c.sound_past_re_measure,
      spliceCount: CONDITION_CLASSES.reduce((sum, k) => sum + c.counts[k], 0),
      worst: h?.worst_splice ?? null,
      unsettled: c.unsettled,
      overdue: h?.overdue ?? { ...NONE_LATE, longest: null },
      late: h?.past_response ?? NONE_LATE,
      lookedAt: h?.coverage.covered_span_phases ?? 0,
      conclusive: h?.coverage.conclusive_span_phases ?? 0,
      age: h?.coverage ?? NO_EVIDENCE,
      spanPhases: h?.coverage.span_phase_count ?? 0,
      lastSurveyedOn: h?.last_surveyed_on ?? null,
      lastLoadA: h?.last_load_a ?? null,
      limits: h?.limits ?? NO_LIMITS,
    }
  })
}

export type HealthSort = 'circuit' | 'voltage' | 'length' | 'splices' | 'classes' | 'worst' | 'backlog' | 'late' | 'lookedAt' | 'conclusive' | 'survey'
export interface HealthOrder { by: HealthSort; ascending: boolean }

/** The circuits that need something first. */
export const WORST_CIRCUITS: HealthOrder = { by: 'classes', ascending: false }

/** Splices that wait for a repair: degraded or worse. */
export const backlogOf = (counts: ClassCounts): number => counts.critical + counts.urgent + counts.degraded

export const shareOf = (part: number, whole: number): number | null => (whole > 0 ? part / whole : null)

/** One more critical splice, or critical reading in review, outweighs any number of urgent ones. */
const byPressing = (a: HealthRow, b: HealthRow): number =>
  a.counts.critical + a.unsettled.critical - b.counts.critical - b.unsettled.critical
  || a.counts.urgent + a.unsettled.urgent - b.counts.urgent - b.unsettled.urgent

/** Among circuits of which nothing is known, the one that would matter most: by voltage, then by what it carries. */
const byWeight = (a: HealthRow, b: HealthRow): number =>
  isUnknown(a) && isUnknown(b) ? (a.voltageKv ?? -1) - (b.voltageKv ?? -1) || (a.lastLoadA ?? -1) - (b.lastLoadA ?? -1) : 0

/** By counts, the worse class first; a circuit of which nothing is known stands after those with something urgent and before all others. */
const byClasses = (a: HealthRow, b: HealthRow): number =>
  byPressing(a, b) || Number(isUnknown(a)) - Number(isUnknown(b)) || byWeight(a, b) || a.counts.degraded - b.counts.degraded || a.counts.watch - b.counts.watch

const byWorst = (a: HealthRow, b: HealthRow): number =>
  classRank(a.worst?.class ?? 'unknown') - classRank(b.worst?.class ?? 'unknown') || (a.worst?.ratio ?? -1) - (b.worst?.ratio ?? -1)

/** Looked at conclusively, and not longer ago than the re-survey interval of the class there. */
export const currentOf = (row: Pick<HealthRow, 'conclusive' | 'age'>): number => row.conclusive - row.age.conclusive_stale_span_phases

const byShare = (of: (row: HealthRow) => number) => (a: HealthRow, b: HealthRow): number =>
  (shareOf(of(a), a.spanPhases) ?? -1) - (shareOf(of(b), b.spanPhases) ?? -1)

const COMPARE: Record<HealthSort, (a: HealthRow, b: HealthRow) => number> = {
  circuit: (a, b) => a.circuit.localeCompare(b.circuit, 'en', { numeric: true }),
  voltage: (a, b) => (a.voltageKv ?? -1) - (b.voltageKv ?? -1),
  length: (a, b) => a.lengthM - b.lengthM,
  splices: (a, b) => a.spliceCount - b.spliceCount,
  classes: byClasses,
  worst: byWorst,
  backlog: (a, b) => backlogOf(a.counts) - backlogOf(b.counts),
  late: (a, b) => a.overdue.critical - b.overdue.critical || a.overdue.urgent - b.overdue.urgent || a.overdue.degraded - b.overdue.degraded,
  lookedAt: byShare((row) => row.lookedAt),
  conclusive: byShare(currentOf),
  survey: (a, b) => (a.lastSurveyedOn ?? '').localeCompare(b.lastSurveyedOn ?? ''),
}

/** Ties keep the circuits' names in order. */
export function sortHealth(rows: readonly HealthRow[], { by, ascending }: HealthOrder): HealthRow[] {
  const sign = ascending ? 1 : -1
  return [...rows].sort((a, b) => sign * COMPARE[by](a, b) || COMPARE.circuit(a, b))
}

/** Splices and readings in review of these circuits that are urgent or critical. A reading counts on each circuit that it may be on. */
export function pressingOf(circuits: readonly Pick<CircuitSummary, 'counts' | 'unsettled'>[]): { critical: number; urgent: number } {
  const sum = (of: 'critical' | 'urgent') => circuits.reduce((total, { counts, unsettled }) => total + counts[of] + unsettled[of], 0)
  return { critical: sum('critical'), urgent: sum('urgent') }
}

function ageOf(rows: readonly HealthRow[]): ConclusiveAge {
  const days = (of: (age: ConclusiveAge) => string | null) => rows.flatMap(({ age }) => of(age) ?? []).sort()
  const stale = rows.reduce((total, { age }) => total + age.conclusive_stale_span_phases, 0)
  return {
    conclusive_oldest_on: days((age) => age.conclusive_oldest_on)[0] ?? null, conclusive_newest_on: days((age) => age.conclusive_newest_on).at(-1) ?? null,
    every_interface_span_phases: rows.reduce((total, { age }) => total + age.every_interface_span_phases, 0),
    conclusive_stale_span_phases: stale, conclusive_stale_share: shareOf(stale, rows.reduce((total, { spanPhases }) => total + spanPhases, 0)),
  }
}

/** The whole network as one row. */
export function totalsOf(rows: readonly HealthRow[]) {
  const counts: ClassCounts = { sound: 0, watch: 0, degraded: 0, urgent: 0, critical: 0, unknown: 0 }
  for (const row of rows) for (const c of CONDITION_CLASSES) counts[c] += row.counts[c]
  const sum = (of: (r: HealthRow) => number) => rows.reduce((total, r) => total + of(r), 0)
  return {
    counts,
    circuits: rows.length,
    lengthM: sum((r) => r.lengthM),
    splices: sum((r) => r.spliceCount),
    soundPast: sum((r) => r.soundPast),
    late: { degraded: sum((r) => r.late.degraded), urgent: sum((r) => r.late.urgent), critical: sum((r) => r.late.critical) },
    overdue: {
      degraded: sum((r) => r.overdue.degraded), urgent: sum((r) => r.overdue.urgent), critical: sum((r) => r.overdue.critical),
      longest: rows.reduce<HealthRow['overdue']['longest']>((most, { overdue: { longest } }) => (longest && longest.days > (most?.days ?? -1) ? longest : most), null),
    },
    limits: { in_force: sum((r) => r.limits.in_force), ask_engineer: sum((r) => r.limits.ask_engineer), lowest_in_force: null, lowest_ask_engineer: null },
    lookedAt: sum((r) => r.lookedAt),
    conclusive: sum((r) => r.conclusive),
    age: ageOf(rows),
    spanPhases: sum((r) => r.spanPhases),
  }
}
