import fs from 'node:fs'
import path from 'node:path'
import { startEmbeddedPostgres, type EmbeddedPostgres } from './embedded-postgres'
import { migrate } from './migrate'

/** Where the embedded database and its companions stand, in the working directory. */
export const DEMO_DIR = path.join('.data', 'demo')

/** Whether an embedded database stands there already. */
export const hasEmbedded = (dir: string): boolean => fs.existsSync(path.join(dir, 'postgres', 'PG_VERSION'))

/** The embedded database, started or joined, as it is. */
export function startEmbedded(dir: string): Promise<EmbeddedPostgres> {
  fs.mkdirSync(dir, { recursive: true })
  return startEmbeddedPostgres({ dataDir: path.join(dir, 'postgres'), database: 'spanledger' })
}

/** The embedded database, started or joined, with every migration applied; DATABASE_URL of this process points at it. */
export async function openEmbedded(dir: string): Promise<EmbeddedPostgres> {
  const database = await startEmbedded(dir)
  try {
    await migrate(database.url)
  } catch (e) {
    await database.stop()
    throw e
  }
  process.env.DATABASE_URL = database.url
  return database
}
