import type { Assessment, ShownClass } from '@/lib/condition'
import { copyRows } from './copy'
import { reserveIds } from './ids'
import { onCircuit, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export type AssessmentCause = 'import' | 'undo' | 'review' | 'policy' | 'engineer'

export interface NewAssessment { spliceId: number; circuitId: number; assessment: Assessment; shown: ShownClass }

const ASSESSMENT_COLUMNS = ['id', 'splice_id', 'engine_version', 'policy_version', 'cause', 'import_id', 'class', 'confidence', 'ratio', 'result']
const STATE_COLUMNS = ['splice_id', 'assessment_id', 'circuit_id', 'class', 'measured_class', 'held', 'found_at', 'confidence', 'ratio', 'governing_side',
  'flags', 'last_reading_at', 'reading_count']

/** The engine's words, kept for ever, and the latest state of each splice beside them. By COPY. */
export async function writeAssessments(
  scope: Scope, items: readonly NewAssessment[], { cause, importId }: { cause: AssessmentCause; importId: number | null }, tx: Tx,
): Promise<void> {
  const kept = scope.circuitIds ? items.filter((item) => scope.circuitIds?.includes(item.circuitId)) : items
  if (kept.length === 0) return
  const ids = await reserveIds(tx, 'assessment', kept.length)
  await copyRows(tx, 'assessment', ASSESSMENT_COLUMNS, kept.map(({ spliceId, assessment: a }, i) => [
    ids[i], spliceId, a.engineVersion, a.policyVersion, cause, importId, a.class, a.confidence, a.ratio, { json: a },
  ]))
  await tx.run(sql`CREATE TEMP TABLE IF NOT EXISTS new_state (LIKE splice_state INCLUDING DEFAULTS) ON COMMIT DROP`)
  await tx.run(sql`TRUNCATE new_state`)
  await copyRows(tx, 'new_state', STATE_COLUMNS, kept.map(({ spliceId, circuitId, assessment: a, shown }, i) => [
    spliceId, ids[i], circuitId, shown.class, a.class, shown.held, dateOf(shown.foundAtMs), a.confidence, a.ratio, a.governingSide,
    shown.held && !a.flags.includes('held') ? ['held', ...a.flags] : a.flags, dateOf(a.lastReadingAtMs), a.readingCount,
  ]))
  await tx.run(sql`
    INSERT INTO splice_state SELECT * FROM new_state
    ON CONFLICT (splice_id) DO UPDATE SET assessment_id = excluded.assessment_id, circuit_id = excluded.circuit_id, class = excluded.class,
      measured_class = excluded.measured_class, held = excluded.held, found_at = excluded.found_at, confidence = excluded.confidence,
      ratio = excluded.ratio, governing_side = excluded.governing_side, flags = excluded.flags, last_reading_at = excluded.last_reading_at,
      reading_count = excluded.reading_count, updated_at = excluded.updated_at`)
}

const dateOf = (ms: number | undefined): Date | null => (ms === undefined ? null : new Date(ms))

/** Splices that were taken out of the line have no state any more. */
export async function dropStatesOfRemoved(scope: Scope, spliceIds: readonly number[], db: Db): Promise<void> {
  await db.run(sql`
    DELETE FROM splice_state st USING splice s
    WHERE s.id = st.splice_id AND s.removed_on IS NOT NULL AND s.id = ANY(${spliceIds}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`)
}
