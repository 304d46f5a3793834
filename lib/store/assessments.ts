import type { Assessment, ClassClocks, ShownClass } from '@/lib/condition'
import { BinaryRows } from './binary-rows'
import { copyBytes, copyTypes } from './copy'
import { riskOf } from './risk'
import { onCircuit, type Scope } from './scope'
import { iso } from './sql/iso'
import { join, name, sql, type Sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export type AssessmentCause = 'import' | 'undo' | 'review' | 'policy' | 'engineer'

export interface NewAssessment {
  spliceId: number
  circuitId: number
  assessment: Assessment
  shown: ShownClass
  clocks: ClassClocks
  /** What it is advised to carry, as its sheet says it; null where no figure is given. */
  advisedA: number | null
}

const ASSESSMENT_COLUMNS = ['id', 'splice_id', 'engine_version', 'policy_version', 'cause', 'import_id', 'class', 'shown_class',
  'held', 'confidence', 'ratio', 'advised_a', 'result']

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
  add(id: number, { spliceId, circuitId, assessment: a, shown, clocks, advisedA }: NewAssessment): void {
    if (this.scope.circuitIds && !this.scope.circuitIds.includes(circuitId)) return
    this.rows.add([
      id, spliceId, a.engineVersion, a.policyVersion, this.from.cause, this.from.importId, a.class, shown.class, shown.held, a.confidence, a.ratio, advisedA,
      JSON.stringify(a),
    ])
    this.states.push({
      splice_id: spliceId, assessment_id: id, circuit_id: circuitId, class: shown.class, measured_class: a.class, held: shown.held,
      found_at: dateOf(shown.foundAtMs), found_ratio: shown.foundRatio ?? null, found_reading_id: newestId(shown.foundReadingIds),
      degraded_since: dateOf(clocks.degraded), urgent_since: dateOf(clocks.urgent), critical_since: dateOf(clocks.critical), confidence: a.confidence,
      ratio: (shown.held ? shown.foundRatio : a.ratio) ?? null, measured_ratio: a.ratio ?? null, governing_side: a.governingSide ?? null,
      flags: (shown.held && !a.flags.includes('held') ? ['held', ...a.flags] : a.flags).join(' '), last_reading_at: dateOf(a.lastReadingAtMs),
      conclusive_at: dateOf(a.conclusiveAtMs), every_interface_at: dateOf(a.everyInterfaceAtMs), measure_by: dateOf(a.nextReadingDueMs), far_picture_ids: pictures(a, true), near_picture_ids: pictures(a, false),
      reading_count: a.readingCount, limit_line_a: shown.held ? null : (a.limit?.lineA ?? null),
    })
  }

  /** Writes what was added. More may be added once it resolves. */
  async write(tx: Tx): Promise<void> {
    const { states } = this
    if (states.length === 0) return
    await copyBytes(tx, 'assessment', ASSESSMENT_COLUMNS, this.rows.taken())
    await tx.run(upsertStates(states))
    this.rows.clear()
    this.states = []
  }
}

interface State {
  splice_id: number; assessment_id: number; circuit_id: number; class: string; measured_class: string; held: boolean; found_at: Date | null
  found_ratio: number | null; found_reading_id: number | null; degraded_since: Date | null; urgent_since: Date | null; critical_since: Date | null
  confidence: string; ratio: number | null; measured_ratio: number | null; governing_side: string | null; /** Parted by blanks. */ flags: string; last_reading_at: Date | null
  conclusive_at: Date | null; every_interface_at: Date | null; measure_by: Date | null; /** Parted by blanks. */ far_picture_ids: string; near_picture_ids: string; reading_count: number
  /** None is given of a finding that holds the class. */ limit_line_a: number | null
}

const STATE_TYPES: Record<keyof State, string> = {
  splice_id: 'int', assessment_id: 'int', circuit_id: 'int', class: 'text', measured_class: 'text', held: 'bool', found_at: 'timestamptz', found_ratio: 'float8',
  found_reading_id: 'int', degraded_since: 'timestamptz', urgent_since: 'timestamptz', critical_since: 'timestamptz', confidence: 'text', ratio: 'float8',
  measured_ratio: 'float8', governing_side: 'text', flags: 'text', last_reading_at: 'timestamptz', conclusive_at: 'timestamptz', every_interface_at: 'timestamptz', measure_by: 'timestamptz',
  far_picture_ids: 'text', near_picture_ids: 'text', reading_count: 'int', limit_line_a: 'float8',
}
const STATE_COLUMNS = Object.keys(STATE_TYPES) as (keyof State)[]

/** Columns of lists, and what their texts are. */
const LISTS: Partial<Record<keyof State, string>> = { flags: '', far_picture_ids: '::int[]', near_picture_ids: '::int[]' }

function upsertStates(states: readonly State[]): Sql {
  const columns = name(STATE_COLUMNS.join(', '))
  const read = name(STATE_COLUMNS.map((c) => (c in LISTS ? `coalesce(string_to_array(nullif(v.${c}, ''), ' '), '{}')${LISTS[c]}` : `v.${c}`)).join(', '))
  const given = join(STATE_COLUMNS.map((c) => sql`${states.map((state) => state[c])}::${name(STATE_TYPES[c])}[]`))
  const risk = riskOf({ spliceId: sql`v.splice_id`, class: sql`v.class`, held: sql`v.held`, confidence: sql`v.confidence`, limitLineA: sql`v.limit_line_a` })
  const changed = name(STATE_COLUMNS.filter((c) => c !== 'splice_id').map((c) => `${c} = excluded.${c}`).join(', '))
  return sql`
    INSERT INTO splice_state (${columns}, load_share, consequence, risk)
    SELECT ${read}, r.share, coalesce(r.consequence, 0), coalesce(r.risk, 0)
    FROM unnest(${given}) AS v (${columns}) LEFT JOIN LATERAL (${risk}) r ON TRUE
    ON CONFLICT (splice_id) DO UPDATE SET ${changed}, load_share = excluded.load_share, consequence = excluded.consequence, risk = excluded.risk,
      updated_at = excluded.updated_at`
}

/** Pictures with too few pixels over the barrel by the engine's word, or with enough, of those that tell. */
const pictures = ({ infrared }: Assessment, isFar: boolean): string => infrared.flatMap(({ readingId, pixels, inconclusive }) => (
  typeof readingId === 'number' && pixels !== undefined && inconclusive.includes('pixels') === isFar ? [readingId] : [])).join(' ')

/** Readings of the store have numbers. */
const newestId = (ids: readonly (number | string)[] | undefined): number | null => {
  const last = ids?.at(-1)
  return typeof last === 'number' ? last : null
}

const dateOf = (ms: number | undefined): Date | null => (ms === undefined ? null : new Date(ms))

/** Splices that were taken out of the line have no state any more. */
export async function dropStatesOfRemoved(scope: Scope, spliceIds: readonly number[], db: Db): Promise<void> {
  await db.run(sql`
    DELETE FROM splice_state st USING splice s
    WHERE s.id = st.splice_id AND s.removed_on IS NOT NULL AND s.id = ANY(${spliceIds}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`)
}

/** When a splice was last assessed, ISO 8601; undefined where it never was or lies outside the scope. */
export async function assessedAt(scope: Scope, spliceId: number, db: Db): Promise<string | undefined> {
  return (await db.row<{ at: string }>(sql`
    SELECT ${iso('a.assessed_at')} AS at FROM splice_state st JOIN assessment a ON a.id = st.assessment_id
    WHERE st.splice_id = ${spliceId} AND ${onCircuit(scope, 'st.circuit_id')}`))?.at
}
