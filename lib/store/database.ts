import pg from 'pg'

const INT8 = 20
const DATE = 1082
const NUMERIC = 1700

interface Held { url: string; pool: pg.Pool }
const held = globalThis as typeof globalThis & { spanledgerDatabase?: Held }

// Counts are numbers, and a calendar day stays the text it is: pg would make local midnight of it.
const types: pg.CustomTypesConfig = {
  getTypeParser(oid: number, format?: 'text' | 'binary') {
    if (format !== 'binary' && (oid === INT8 || oid === NUMERIC)) return Number
    if (format !== 'binary' && oid === DATE) return String
    return pg.types.getTypeParser(oid, format)
  },
}

function open(): Held {
  const url = process.env.DATABASE_URL
  if (!url) throw new Error('DATABASE_URL is not set. Start with `npm run demo` or `npm start`, or set it to your PostgreSQL.')
  if (held.spanledgerDatabase?.url === url) return held.spanledgerDatabase
  const pool = new pg.Pool({ connectionString: url, max: Number(process.env.DATABASE_POOL_SIZE ?? 10), types, application_name: 'spanledger' })
  pool.on('error', () => undefined) // an idle connection that the server closed is replaced by the next query
  held.spanledgerDatabase = { url, pool }
  return held.spanledgerDatabase
}

/** The one connection pool of this process, from DATABASE_URL. Throws where that is not set. */
export const pool = (): pg.Pool => open().pool

/** A connection of its own, outside the pool, for what lasts: a held lock, LISTEN. The caller ends it. */
export async function dedicatedClient(): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: open().url, types, application_name: 'spanledger' })
  await client.connect()
  return client
}

/** Closes what this process opened; the next query opens it again. */
export async function closeDatabase(): Promise<void> {
  const open = held.spanledgerDatabase
  if (!open) return
  delete held.spanledgerDatabase
  await open.pool.end()
}
