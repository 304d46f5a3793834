import { createHash, randomUUID } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import pg from 'pg'

/** The advisory lock that Prisma's own migration engine takes, so that either tool waits for the other. */
const PRISMA_LOCK = 72707369

const RECORD_TABLE = `CREATE TABLE IF NOT EXISTS _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL, checksum VARCHAR(64) NOT NULL, finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL, logs TEXT, rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(), applied_steps_count INTEGER NOT NULL DEFAULT 0)`

/** Where this product's migrations stand in the working directory. */
export const MIGRATIONS_DIR = path.join('prisma', 'migrations')

/**
 * Applies the migrations that the database lacks, in name order, and records them as `prisma migrate deploy` does:
 * either tool can be used on the same database at any time. Replicas that start together wait for one another.
 * Returns the names it applied. Throws where a migration fails, was edited after it was applied, or failed earlier.
 */
export async function migrate(url: string, dir: string = MIGRATIONS_DIR): Promise<string[]> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    await client.query('SELECT pg_advisory_lock($1)', [PRISMA_LOCK])
    const schema = new URL(url).searchParams.get('schema') ?? 'public'
    await client.query(`SET search_path TO ${client.escapeIdentifier(schema)}`)
    await client.query(RECORD_TABLE)
    const held = await recorded(client)
    const applied: string[] = []
    for (const migration of readMigrations(dir)) {
      const checksum = held.get(migration.name)
      if (checksum === undefined) {
        await apply(client, migration)
        applied.push(migration.name)
      } else if (checksum !== migration.checksum) {
        throw new Error(`The migration ${migration.name} was edited after this database applied it. `
          + 'Put the file back as it was and add a new migration.')
      }
    }
    return applied
  } finally {
    await client.end()
  }
}

interface Migration { name: string; sql: string; checksum: string }

function readMigrations(dir: string): Migration[] {
  return fs.readdirSync(dir).sort().flatMap((name) => {
    const file = path.join(dir, name, 'migration.sql')
    if (!fs.existsSync(file)) return []
    const bytes = fs.readFileSync(file)
    return [{ name, sql: bytes.toString('utf8'), checksum: createHash('sha256').update(bytes).digest('hex') }]
  })
}

async function recorded(client: pg.Client): Promise<Map<string, string>> {
  const { rows } = await client.query<{ migration_name: string; checksum: string; finished_at: Date | null }>(
    'SELECT migration_name, checksum, finished_at FROM _prisma_migrations WHERE rolled_back_at IS NULL')
  const failed = rows.find((r) => r.finished_at === null)
  if (failed) {
    throw new Error(`The migration ${failed.migration_name} failed earlier. Mend its cause, then mark it with: npx prisma migrate resolve`)
  }
  return new Map(rows.map((r) => [r.migration_name, r.checksum]))
}

async function apply(client: pg.Client, { name, sql, checksum }: Migration): Promise<void> {
  const id = randomUUID()
  await client.query('INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES ($1, $2, $3)', [id, checksum, name])
  try {
    await client.query(sql) // without parameters: the simple protocol, where the whole file is one transaction
  } catch (e) {
    await client.query('UPDATE _prisma_migrations SET logs = $2 WHERE id = $1', [id, e instanceof Error ? e.message : String(e)])
    throw e
  }
  await client.query('UPDATE _prisma_migrations SET finished_at = now(), applied_steps_count = 1 WHERE id = $1', [id])
}
