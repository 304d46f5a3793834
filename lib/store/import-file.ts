import { onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

/** A file arrives and is read in pieces of this size, so that neither side holds it whole. */
export const CHUNK_BYTES = 1 << 20

export async function writeChunk(scope: Scope, importId: number, seq: number, bytes: Buffer, db: Db = database()): Promise<void> {
  await db.run(sql`INSERT INTO import_chunk (import_id, seq, bytes) SELECT ${importId}::int, ${seq}::int, ${bytes}::bytea WHERE ${onEverything(scope)}`)
}

/** The file again, piece by piece. */
export async function* readChunks(scope: Scope, importId: number, db: Db = database()): AsyncGenerator<Uint8Array> {
  for (let seq = 0; ; seq++) {
    const row = await db.row<{ bytes: Buffer }>(
      sql`SELECT bytes FROM import_chunk WHERE import_id = ${importId} AND seq = ${seq} AND ${onEverything(scope)}`)
    if (!row) return
    yield row.bytes
  }
}

/** Once the rows are stored with their raw text the file itself is not needed again. */
export async function dropChunks(scope: Scope, importId: number, db: Db): Promise<void> {
  await db.run(sql`DELETE FROM import_chunk WHERE import_id = ${importId} AND ${onEverything(scope)}`)
}
