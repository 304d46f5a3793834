import type { Assessment, ShownClass } from '@/lib/condition'
import { BinaryRows } from './binary-rows'
import { copyTypes, sendBytes } from './copy'
import { onCircuit, type Scope } from './scope'
import { sql, type Sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export type AssessmentCause = 'import' | 'undo' | 'review' | 'policy' | 'engineer'

export interface NewAssessment { spliceId: number; circuitId: number; assessment: Assessment; shown: ShownClass }

const ASSESSMENT_COLUMNS = ['id', 'splice_id', 'engine_version', 'policy_version', 'cause', 'import_id', 'class', 'confidence', 'ratio', 'result']

/** The engine's words, kept for ever, as the bytes COPY takes, and the latest state of each splice beside them. */
export class AssessmentRows {
  private states: State[] = []

  private constructor(
    private readonly scope: Scope, private readonly from: { cause: AssessmentCause; importId: number | null }, private readonly rows: BinaryRows,
  ) {}

  static async of(scope: Scope, from: { cause: AssessmentCause; importId: number | null }, tx: Tx): Promise<AssessmentRows> {
    return new AssessmentRows(scope, from, new BinaryRows(await copyTypes(tx, 'assessment', ASSESSMENT_COLUMNS), 1 << 20))
  }

  /** `id` is reserved for it. Splices outside the scope are passed over. */
  add(id: number, { spliceId, circuitId, assessment: a, shown }: NewAssessment): void {
    if (this.scope.circuitIds && !this.scope.circuitIds.includes(circuitId)) return
    this.rows.add([id, spliceId, a.engineVersion, a.policyVersion, this.from.cause, this.from.importId, a.class, a.confidence, a.ratio, { json: a }])
    this.states.push({
      splice_id: spliceId, assessment_id: id, circuit_id: circuitId, class: shown.class, measured_class: a.class, held: shown.held,
      found_at: dateOf(shown.foundAtMs), confidence: a.confidence, ratio: a.ratio ?? null, governing_side: a.governingSide ?? null,
      flags: (shown.held && !a.flags.includes('held') ? ['held', ...a.flags] : a.flags).join(' '), last_reading_at: dateOf(a.lastReadingAtMs), conclusive_at: dateOf(a.conclusiveAtMs),
      reading_count: a.readingCount,
    })
  }

  /** Writes what was added. More may be added once it resolves. */
  async write(tx: Tx): Promise<void> {
    const { states } = this
    if (states.length === 0) return
    await (await sendBytes(tx, 'assessment', ASSESSMENT_COLUMNS, this.rows.taken())).done
    await tx.run(upsertStates(states))
    this.rows.clear()
    this.states = []
  }
}

interface State {
  splice_id: number; assessment_id: number; circuit_id: number; class: string; measured_class: string; held: boolean; found_at: Date | null
  confidence: string; ratio: number | null; governing_side: string | null; /** Parted by blanks. */ flags: string; last_reading_at: Date | null
  conclusive_at: Date | null; reading_count: number
}

function upsertStates(states: readonly State[]): Sql {
  const column = <K extends keyof State>(key: K): State[K][] => states.map((state) => state[key])
  return sql`
    INSERT INTO splice_state (splice_id, assessment_id, circuit_id, class, measured_class, held, found_at, confidence, ratio, governing_side, flags,
      last_reading_at, conclusive_at, reading_count)
    SELECT v.splice_id, v.assessment_id, v.circuit_id, v.class, v.measured_class, v.held, v.found_at, v.confidence, v.ratio, v.governing_side,
      coalesce(string_to_array(nullif(v.flags, ''), ' '), '{}'), v.last_reading_at, v.conclusive_at, v.reading_count
    FROM unnest(${column('splice_id')}::int[], ${column('assessment_id')}::int[], ${column('circuit_id')}::int[], ${column('class')}::text[],
      ${column('measured_class')}::text[], ${column('held')}::bool[], ${column('found_at')}::timestamptz[], ${column('confidence')}::text[],
      ${column('ratio')}::float8[], ${column('governing_side')}::text[], ${column('flags')}::text[], ${column('last_reading_at')}::timestamptz[],
      ${column('conclusive_at')}::timestamptz[], ${column('reading_count')}::int[])
      AS v (splice_id, assessment_id, circuit_id, class, measured_class, held, found_at, confidence, ratio, governing_side, flags, last_reading_at, conclusive_at,
        reading_count)
    ON CONFLICT (splice_id) DO UPDATE SET assessment_id = excluded.assessment_id, circuit_id = excluded.circuit_id, class = excluded.class,
      measured_class = excluded.measured_class, held = excluded.held, found_at = excluded.found_at, confidence = excluded.confidence,
      ratio = excluded.ratio, governing_side = excluded.governing_side, flags = excluded.flags, last_reading_at = excluded.last_reading_at, conclusive_at = excluded.conclusive_at,
      reading_count = excluded.reading_count, updated_at = excluded.updated_at`
}

const dateOf = (ms: number | undefined): Date | null => (ms === undefined ? null : new Date(ms))

/** Splices that were taken out of the line have no state any more. */
export async function dropStatesOfRemoved(scope: Scope, spliceIds: readonly number[], db: Db): Promise<void> {
  await db.run(sql`
    DELETE FROM splice_state st USING splice s
    WHERE s.id = st.splice_id AND s.removed_on IS NOT NULL AND s.id = ANY(${spliceIds}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`)
}
