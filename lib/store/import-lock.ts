import { mustCoverEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Tx } from './transaction'

const IMPORT_LOCK = 6_210_417

/** One import, undo or reassessment at a time, over all replicas: each sees what the one before it committed. Freed with the transaction. */
export async function holdImportLock(scope: Scope, tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  await tx.run(sql`SELECT pg_advisory_xact_lock(${IMPORT_LOCK})`)
}
