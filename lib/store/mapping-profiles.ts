import type { ImportKind, Mapping } from '@/lib/intake'
import { onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

export interface Remembered {
  mapping: Mapping
  /** The import at which it was said; null where that is no longer known. */
  importId: number | null
}

/** The mapping that people last confirmed for files with these columns, at an import that still stands. */
export async function mappingFor(scope: Scope, headerHash: string, kind: ImportKind | undefined, db: Db = database()): Promise<Remembered | undefined> {
  return db.row<Remembered>(sql`
    SELECT m.mapping, m.import_id AS "importId" FROM mapping_profile m LEFT JOIN import i ON i.id = m.import_id
    WHERE m.header_hash = ${headerHash} AND (m.import_id IS NULL OR i.state = 'done') AND ${onEverything(scope)} AND ${kind ? sql`m.kind = ${kind}` : sql`TRUE`}
    ORDER BY m.used_at DESC, m.id DESC LIMIT 1`)
}

/** Remembers a mapping for the next file with these columns, for as long as the import stands at which it was said. */
export async function rememberMapping(scope: Scope, headerHash: string, importId: number, mapping: Mapping, db: Db): Promise<void> {
  await db.run(sql`
    INSERT INTO mapping_profile (header_hash, kind, mapping, import_id)
    SELECT ${headerHash}, ${mapping.kind}, ${JSON.stringify(mapping)}::jsonb, ${importId} WHERE ${onEverything(scope)}`)
}
