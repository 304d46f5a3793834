import type { Assessment, ShownClass } from '@/lib/condition'
import { BinaryRows } from './binary-rows'
import { copyTypes, sendBytes } from './copy'
import { onCircuit, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export type AssessmentCause = 'import' | 'undo' | 'review' | 'policy' | 'engineer'

export interface NewAssessment { spliceId: number; circuitId: number; assessment: Assessment; shown: ShownClass }

const ASSESSMENT_COLUMNS = ['id', 'splice_id', 'engine_version', 'policy_version', 'cause', 'import_id', 'class', 'confidence', 'ratio', 'result']
const STATE_COLUMNS = ['splice_id', 'assessment_id', 'circuit_id', 'class', 'measured_class', 'held', 'found_at', 'confidence', 'ratio', 'governing_side',
  'flags', 'last_reading_at', 'reading_count']

/** The engine's words, kept for ever, and the latest state of each splice beside them, as the bytes COPY takes. */
export class AssessmentRows {
  private constructor(
    private readonly scope: Scope, private readonly from: { cause: AssessmentCause; importId: number | null },
    private readonly assessments: BinaryRows, private readonly states: BinaryRows,
  ) {}

  static async of(scope: Scope, from: { cause: AssessmentCause; importId: number | null }, tx: Tx): Promise<AssessmentRows> {
    const [assessments, states] = [await copyTypes(tx, 'assessment', ASSESSMENT_COLUMNS), await copyTypes(tx, 'splice_state', STATE_COLUMNS)]
    return new AssessmentRows(scope, from, new BinaryRows(assessments), new BinaryRows(states))
  }

  /** `id` is reserved for it. Splices outside the scope are passed over. */
  add(id: number, { spliceId, circuitId, assessment: a, shown }: NewAssessment): void {
    if (this.scope.circuitIds && !this.scope.circuitIds.includes(circuitId)) return
    this.assessments.add([
      id, spliceId, a.engineVersion, a.policyVersion, this.from.cause, this.from.importId, a.class, a.confidence, a.ratio, { json: a },
    ])
    this.states.add([
      spliceId, id, circuitId, shown.class, a.class, shown.held, dateOf(shown.foundAtMs), a.confidence, a.ratio, a.governingSide,
      shown.held && !a.flags.includes('held') ? ['held', ...a.flags] : a.flags, dateOf(a.lastReadingAtMs), a.readingCount,
    ])
  }

  /** Writes what was added. More may be added once it resolves. */
  async write(tx: Tx): Promise<void> {
    if (this.states.length === 0) return
    await (await sendBytes(tx, 'assessment', ASSESSMENT_COLUMNS, this.assessments.view())).done
    await tx.run(sql`CREATE TEMP TABLE IF NOT EXISTS new_state (LIKE splice_state INCLUDING DEFAULTS) ON COMMIT DROP`)
    await tx.run(sql`TRUNCATE new_state`)
    await (await sendBytes(tx, 'new_state', STATE_COLUMNS, this.states.view())).done
    await tx.run(sql`
      INSERT INTO splice_state SELECT * FROM new_state
      ON CONFLICT (splice_id) DO UPDATE SET assessment_id = excluded.assessment_id, circuit_id = excluded.circuit_id, class = excluded.class,
        measured_class = excluded.measured_class, held = excluded.held, found_at = excluded.found_at, confidence = excluded.confidence,
        ratio = excluded.ratio, governing_side = excluded.governing_side, flags = excluded.flags, last_reading_at = excluded.last_reading_at,
        reading_count = excluded.reading_count, updated_at = excluded.updated_at`)
    this.assessments.clear()
    this.states.clear()
  }
}

const dateOf = (ms: number | undefined): Date | null => (ms === undefined ? null : new Date(ms))

/** Splices that were taken out of the line have no state any more. */
export async function dropStatesOfRemoved(scope: Scope, spliceIds: readonly number[], db: Db): Promise<void> {
  await db.run(sql`
    DELETE FROM splice_state st USING splice s
    WHERE s.id = st.splice_id AND s.removed_on IS NOT NULL AND s.id = ANY(${spliceIds}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`)
}
