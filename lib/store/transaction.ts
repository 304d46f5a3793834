import type pg from 'pg'
import { pool } from './database'
import type { Sql } from './sql/sql'

/** Whatever a question can be put to: the pool, or a transaction. */
export interface Db {
  rows<T extends object>(question: Sql): Promise<T[]>
  row<T extends object>(question: Sql): Promise<T | undefined>
  /** Returns how many rows were touched. */
  run(statement: Sql): Promise<number>
}

/** Work on one connection that is committed whole or not at all. */
export interface Tx extends Db {
  readonly client: pg.ClientBase
  /** Waits for its turn on the connection and has it to itself until `work` is done: who asks meanwhile comes after it. */
  alone<T>(work: () => Promise<T>): Promise<T>
}

type Ask = (q: Sql) => Promise<pg.QueryResult>

const asDb = (ask: Ask): Db => ({
  rows: async <T extends object>(q: Sql) => (await ask(q)).rows as T[],
  row: async <T extends object>(q: Sql) => (await ask(q)).rows[0] as T | undefined,
  run: async (q: Sql) => (await ask(q)).rowCount ?? 0,
})

const put = (client: pg.Pool | pg.ClientBase, q: Sql) => client.query({ text: q.text, values: q.values })

/** A transaction over a connection on which it has begun. */
function asTx(client: pg.ClientBase): Tx {
  let last: Promise<unknown> = Promise.resolve()
  const alone = <T>(work: () => Promise<T>): Promise<T> => {
    const turn = last.then(work)
    last = turn.catch(() => undefined) // told to whoever asked
    return turn
  }
  return { ...asDb((q) => alone(() => put(client, q))), client, alone }
}

/** Questions outside a transaction, each on any connection of the pool. */
export const database = (): Db => asDb((q) => put(pool(), q))

/** Commits when `work` returns, rolls back when it throws. */
export async function inTransaction<T>(work: (tx: Tx) => Promise<T>): Promise<T> {
  const client = await pool().connect()
  let broken: Error | undefined
  try {
    await client.query('BEGIN')
    const value = await work(asTx(client))
    await client.query('COMMIT')
    return value
  } catch (e) {
    await client.query('ROLLBACK').catch((lost: Error) => { broken = lost })
    throw e
  } finally {
    client.release(broken)
  }
}

/** Work within a transaction that stands only where its outcome is good; otherwise what it wrote is undone and the outcome still told. */
export async function savepoint<T>(tx: Tx, work: () => Promise<T>, isGood: (outcome: T) => boolean): Promise<T> {
  await tx.client.query('SAVEPOINT attempt')
  const outcome = await work()
  if (!isGood(outcome)) await tx.client.query('ROLLBACK TO SAVEPOINT attempt')
  await tx.client.query('RELEASE SAVEPOINT attempt')
  return outcome
}
