import type { HistoryEntry } from '@/lib/contract/history'
import type { Scope } from './scope'
import { onCircuit } from './scope'
import { assessmentsOf, decisionsOn, limitStepsOf, noticesOf, repairsOf, undoneOn } from './sql/splice-history'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

type Of<K extends HistoryEntry['kind']> = Extract<HistoryEntry, { kind: K }>
type NoticeRow = Omit<Of<'notice'>, 'kind' | 'at'> & { raised_at: string; told_at: string | null; by: string | null; told_to: string | null; called_at: string | null }

/** At one moment: what followed stands above what it followed from. */
const ORDER: Record<HistoryEntry['kind'], number> = { told: 0, limit: 1, notice: 2, assessment: 3, decision: 4, undo: 5, repair: 6 }

/** What happened to a splice, newest first: what was said of it, who was told, who decided, what was repaired and undone, and each step of a limit. */
export async function historyOf(scope: Scope, spliceId: number, db: Db = database()): Promise<HistoryEntry[]> {
  if (!await db.row(sql`SELECT FROM splice s WHERE s.id = ${spliceId} AND ${onCircuit(scope, 's.circuit_id')}`)) return []
  const [assessments, notices, decisions, repairs, undone, limits] = await Promise.all([
    db.rows<Of<'assessment'>>(assessmentsOf(spliceId)), db.rows<NoticeRow>(noticesOf(spliceId)), db.rows<Of<'decision'>>(decisionsOn(spliceId)),
    db.rows<Of<'repair'>>(repairsOf(spliceId)), db.rows<Of<'undo'>>(undoneOn(spliceId)),
    db.rows<Of<'limit'>>(limitStepsOf(spliceId)),
  ])
  const entries: HistoryEntry[] = [...assessments, ...notices.flatMap(entriesOf), ...decisions, ...repairs, ...undone, ...limits]
  return entries.sort((a, b) => b.at.localeCompare(a.at) || ORDER[a.kind] - ORDER[b.kind])
}

function entriesOf({ raised_at: raisedAt, told_at: toldAt, by, told_to, called_at, ...notice }: NoticeRow): HistoryEntry[] {
  const raised: HistoryEntry = { kind: 'notice', at: raisedAt, ...notice }
  if (toldAt === null || by === null) return [raised]
  const { class: found, reading_key, survey, withdrawn } = notice
  return [{ kind: 'told', at: toldAt, class: found, by, reading_key, survey, withdrawn, told_to, told_at: called_at }, raised]
}
