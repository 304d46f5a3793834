import type { ImportKind, Mapping } from '@/lib/intake'
import { onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

/** The mapping that people confirmed for files with these columns. */
export async function mappingFor(scope: Scope, headerHash: string, kind: ImportKind | undefined, db: Db = database()): Promise<Mapping | undefined> {
  const row = await db.row<{ mapping: Mapping }>(sql`
    SELECT mapping FROM mapping_profile WHERE header_hash = ${headerHash} AND ${onEverything(scope)} AND ${kind ? sql`kind = ${kind}` : sql`TRUE`}`)
  return row?.mapping
}

/** Remembers a mapping for the next file with these columns. */
export async function rememberMapping(scope: Scope, headerHash: string, mapping: Mapping, db: Db): Promise<void> {
  await db.run(sql`
    INSERT INTO mapping_profile (header_hash, kind, mapping)
    SELECT ${headerHash}, ${mapping.kind}, ${JSON.stringify(mapping)}::jsonb WHERE ${onEverything(scope)}
    ON CONFLICT (header_hash) DO UPDATE SET kind = excluded.kind, mapping = excluded.mapping, used_at = now()`)
}

/** The last import of a file with these columns that still stands: the one whose mapping is remembered. */
export async function lastImportWith(scope: Scope, columns: readonly string[], kind: ImportKind, db: Db): Promise<number | undefined> {
  const row = await db.row<{ id: number }>(sql`
    SELECT id FROM import WHERE kind = ${kind} AND header = ${JSON.stringify(columns)}::jsonb AND state IN ('done', 'undone') AND NOT dry_run AND ${onEverything(scope)}
    ORDER BY id DESC LIMIT 1`)
  return row?.id
}
