import { once } from 'node:events'
import type { Writable } from 'node:stream'
import { from as copyFrom } from 'pg-copy-streams'
import { BinaryRows, COPY_TYPES, type CopyType, type CopyValue } from './binary-rows'
import { join, name, sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export type { CopyValue } from './binary-rows'

const PIECE_BYTES = 1 << 17
const HEADER = Buffer.concat([Buffer.from('PGCOPY\n\xff\r\n\0', 'latin1'), Buffer.alloc(8)])
const TRAILER = Buffer.from([0xff, 0xff])

const knownTypes = new Map<string, ReadonlyMap<string, CopyType>>()

/** Types of a table's columns, asked of the database once. */
async function typesOf(db: Db, table: string): Promise<ReadonlyMap<string, CopyType>> {
  const known = knownTypes.get(table)
  if (known) return known
  const rows = await db.rows<{ column: string; type: CopyType }>(sql`
    SELECT attname AS column, CASE WHEN t.typcategory = 'A' THEN e.typname || '[]' ELSE t.typname END AS type
    FROM pg_attribute a JOIN pg_type t ON t.oid = a.atttypid LEFT JOIN pg_type e ON e.oid = t.typelem AND t.typcategory = 'A'
    WHERE attrelid = ${table}::regclass AND attnum > 0 AND NOT attisdropped AND
      CASE WHEN t.typcategory = 'A' THEN e.typname || '[]' ELSE t.typname END IN (${join([...COPY_TYPES])})`)
  const types = new Map(rows.map((row) => [row.column, row.type]))
  knownTypes.set(table, types)
  return types
}

/** The types of these columns, in their order. */
export async function copyTypes(db: Db, table: string, columns: readonly string[]): Promise<CopyType[]> {
  const types = await typesOf(db, table)
  return columns.map((column) => {
    const type = types.get(column)
    if (!type) throw new Error(`COPY into ${table} cannot write the column ${column}.`)
    return type
  })
}

/** Writes rows by COPY, holding at most a piece of them as bytes. Returns how many. */
export async function copyRows(tx: Tx, table: string, columns: readonly string[], rows: Iterable<readonly CopyValue[]>): Promise<number> {
  const binary = new BinaryRows(await copyTypes(tx, table, columns))
  let count = 0
  await tx.alone(async () => {
    const copy = openCopy(tx, table, columns)
    try {
      for (const row of rows) {
        binary.add(row)
        count++
        if (binary.length < PIECE_BYTES) continue
        await copy.write(Buffer.from(binary.taken()))
        binary.clear()
      }
    } catch (e) {
      await copy.breakOff()
      throw e
    }
    await copy.write(binary.taken())
    await copy.end()
  })
  return count
}

/** Writes rows that are bytes already, once the connection is free; the bytes must stay as they are until it resolves. */
export function copyBytes(tx: Tx, table: string, columns: readonly string[], bytes: Buffer): Promise<void> {
  return tx.alone(async () => {
    const copy = openCopy(tx, table, columns)
    await copy.write(bytes)
    await copy.end()
  })
}

export interface OpenCopy {
  /** Resolves when the bytes have left, if they are more than the 16 KiB that a socket keeps back. */
  write(bytes: Buffer): Promise<void>
  /** Resolves when the database has taken everything. */
  end(): Promise<void>
  /** Ends it so that nothing of it stands; the transaction is to be rolled back. */
  breakOff(): Promise<void>
}

/** Begins a COPY on the transaction's connection, which must be its own: see `Tx.alone`. */
export function openCopy(tx: Tx, table: string, columns: readonly string[]): OpenCopy {
  const statement = sql`COPY ${name(table)} (${name(columns.join(', '))}) FROM STDIN WITH (FORMAT binary)`
  const stream: Writable = tx.client.query(copyFrom(statement.text))
  const failed = new Promise<never>((_, reject) => stream.once('error', reject))
  failed.catch(() => undefined) // awaited below where it matters
  stream.write(HEADER)
  return {
    breakOff: () => new Promise((resolve) => {
      stream.once('close', resolve)
      stream.destroy()
    }),
    write: async (bytes) => {
      if (!stream.write(bytes)) await Promise.race([once(stream, 'drain'), failed])
    },
    end: async () => {
      stream.end(TRAILER)
      await Promise.race([once(stream, 'finish'), failed])
    },
  }
}
