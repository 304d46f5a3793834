import { classRank, type ByTable, type ConductorDoubt } from '@/lib/condition'
import { onPlacement, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'
import { doubtJson } from './urgent'

/** What an urgent or critical class on show rests on. */
export interface Finding {
  class: 'urgent' | 'critical'
  /** Measured; null for a sighting. */
  ratio: number | null
  doubt?: ConductorDoubt
  byTable?: ByTable
  /** Oldest first. */
  readingIds: readonly number[]
}

interface Told { reading_id: number; class: Finding['class']; waiting: boolean }

/**
 * A notice for every finding that no notice of its readings covers yet: a class may come out urgent or critical of readings none of
 * which is by itself, of another policy, or of what is known of the line. One notice a finding: where a milder one still waits to be
 * told it rises in place, where it was told a second one is raised. A finding whose readings were withdrawn keeps the notices it has.
 * @param importId the import that brought it to light, if one did
 */
export async function raiseFindings(scope: Scope, importId: number | null, findings: readonly Finding[], db: Db): Promise<void> {
  if (findings.length === 0) return
  const ids = findings.flatMap((finding) => finding.readingIds)
  const told = new Map<number, Told[]>()
  const rows = await db.rows<Told>(sql`
    SELECT reading_id, class, acknowledged_at IS NULL AS waiting FROM urgent_notice WHERE reading_id = ANY(${ids}::int[])`)
  for (const row of rows) told.set(row.reading_id, [...told.get(row.reading_id) ?? [], row])
  const fresh: { id: number; of: Finding }[] = []
  for (const of of findings) {
    const before = of.readingIds.flatMap((id) => told.get(id) ?? [])
    if (before.some((notice) => classRank(notice.class) >= classRank(of.class))) continue
    const waiting = before.findLast((notice) => notice.waiting)
    const id = waiting?.reading_id ?? of.readingIds.at(-1)
    if (waiting) await rise(waiting.reading_id, of, db)
    else if (id !== undefined) fresh.push({ id, of })
  }
  await insert(scope, importId, fresh, db)
}

const rise = (readingId: number, of: Finding, db: Db): Promise<number> => db.run(sql`
  UPDATE urgent_notice SET class = ${of.class}, ratio = ${of.ratio}, doubt = ${doubtText(of)}::jsonb, by_table = ${tableText(of)}::jsonb, basis = 'assessment' WHERE reading_id = ${readingId} AND acknowledged_at IS NULL`)

const doubtText = ({ doubt }: Finding): string | null => (doubt ? JSON.stringify(doubtJson(doubt)) : null)
const tableText = ({ byTable }: Finding): string | null => (byTable ? JSON.stringify(byTable) : null)

async function insert(scope: Scope, importId: number | null, fresh: readonly { id: number; of: Finding }[], db: Db): Promise<void> {
  if (fresh.length === 0) return
  await db.run(sql`
    INSERT INTO urgent_notice (reading_id, class, ratio, doubt, by_table, basis, import_id, circuits)
    SELECT v.id, v.class, v.ratio, v.doubt::jsonb, v.by_table::jsonb, 'assessment', ${importId}::int,
      jsonb_build_array(jsonb_build_object('circuit_id', c.id, 'circuit', c.name, 'probability', NULL))
    FROM unnest(${fresh.map(({ id }) => id)}::int[], ${fresh.map(({ of }) => of.class)}::text[], ${fresh.map(({ of }) => of.ratio)}::float8[],
      ${fresh.map(({ of }) => doubtText(of))}::text[], ${fresh.map(({ of }) => tableText(of))}::text[]) AS v (id, class, ratio, doubt, by_table)
    CROSS JOIN LATERAL (SELECT * FROM placement WHERE reading_id = v.id AND current OFFSET 0) p
    JOIN circuit c ON c.id = p.circuit_id
    WHERE ${onPlacement(scope, 'p')}`)
}
