import type { HistoryEntry } from '@/lib/contract/contract'
import type { Scope } from './scope'
import { onCircuit } from './scope'
import { assessmentsOf, decisionsOn, noticesOf, repairsOf, undoneOn } from './sql/splice-history'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

type Of<K extends HistoryEntry['kind']> = Extract<HistoryEntry, { kind: K }>
type NoticeRow = Omit<Of<'notice'>, 'kind' | 'at' | 'count'> & { raised_at: string; told_at: string | null; by: string | null; taken_at: Date | null }

/** At one moment: what followed stands above what it followed from. */
const ORDER: Record<HistoryEntry['kind'], number> = { told: 0, notice: 1, assessment: 2, decision: 3, undo: 4, repair: 5 }

/** What happened to a splice, newest first: what was said of it, who was told, who decided, what was repaired and what was undone. */
export async function historyOf(scope: Scope, spliceId: number, db: Db = database()): Promise<HistoryEntry[]> {
  if (!await db.row(sql`SELECT FROM splice s WHERE s.id = ${spliceId} AND ${onCircuit(scope, 's.circuit_id')}`)) return []
  const [assessments, notices, decisions, repairs, undone] = await Promise.all([
    db.rows<Of<'assessment'>>(assessmentsOf(spliceId)), db.rows<NoticeRow>(noticesOf(spliceId)), db.rows<Of<'decision'>>(decisionsOn(spliceId)),
    db.rows<Of<'repair'>>(repairsOf(spliceId)), db.rows<Of<'undo'>>(undoneOn(spliceId)),
  ])
  const entries: HistoryEntry[] = [...assessments, ...entriesOf(notices), ...decisions, ...repairs, ...undone]
  return entries.sort((a, b) => b.at.localeCompare(a.at) || ORDER[a.kind] - ORDER[b.kind])
}

/** Readings of a splice within so many hours are one visit, whose repeats raise a notice each. */
const VISIT_MS = 12 * 3_600_000

const sameVisit = (a: NoticeRow, b: NoticeRow): boolean => a.class === b.class && a.basis === b.basis && a.survey === b.survey && a.raised_at === b.raised_at
  && (a.taken_at === null || b.taken_at === null ? a.taken_at === b.taken_at : Math.abs(a.taken_at.getTime() - b.taken_at.getTime()) <= VISIT_MS)

/** One entry a visit, with how many of its repeats raised one; and one for each who noted that the control room was told. */
function entriesOf(notices: readonly NoticeRow[]): HistoryEntry[] {
  const visits: NoticeRow[][] = []
  for (const notice of notices) {
    const visit = visits.find(([first]) => first && sameVisit(first, notice))
    if (visit) visit.push(notice)
    else visits.push([notice])
  }
  return visits.flatMap((visit) => {
    const worst = visit.reduce((a, b) => ((b.ratio ?? Infinity) > (a.ratio ?? Infinity) ? b : a))
    const { raised_at: at, told_at: _t, by: _b, taken_at: _r, ...notice } = worst
    return [...toldOf(visit), { kind: 'notice' as const, at, ...notice, count: visit.length }]
  })
}

function toldOf(visit: readonly NoticeRow[]): HistoryEntry[] {
  const told = new Map<string, Of<'told'>>()
  for (const { told_at: at, by, class: found, reading_key, survey } of visit) {
    if (at === null || by === null) continue
    const before = told.get(by)
    if (!before) told.set(by, { kind: 'told', at, class: found, by, reading_key, survey, count: 1 })
    else told.set(by, { ...before, at: at > before.at ? at : before.at, count: before.count + 1 })
  }
  return [...told.values()]
}
