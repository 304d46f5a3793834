import { once } from 'node:events'
import { from as copyFrom } from 'pg-copy-streams'
import type { Tx } from './transaction'

export type CopyValue = string | number | boolean | Date | null | undefined | readonly (string | number)[] | { json: unknown }

const CHUNK_CHARS = 1 << 17
const SPECIAL = /[\\\n\r\t\0]/
const SPECIALS = /[\\\n\r\t\0]/g
const ESCAPED: Record<string, string> = { '\\': '\\\\', '\n': '\\n', '\r': '\\r', '\t': '\\t', '\0': '' }

/** Text as COPY reads it. PostgreSQL text cannot hold NUL, so it is left out. */
function text(value: string): string {
  return SPECIAL.test(value) ? value.replace(SPECIALS, (c) => ESCAPED[c] ?? c) : value
}

const element = (v: string | number): string => (typeof v === 'number' ? String(v) : `"${v.replace(/["\\]/g, '\\$&')}"`)

function field(value: CopyValue): string {
  if (value === null || value === undefined) return '\\N'
  if (typeof value === 'number') return String(value)
  if (typeof value === 'string') return text(value)
  if (typeof value === 'boolean') return value ? 't' : 'f'
  if (value instanceof Date) return value.toISOString()
  if (Array.isArray(value)) return text(`{${value.map(element).join(',')}}`)
  return text(JSON.stringify((value as { json: unknown }).json))
}

/** One row as a line of COPY's text format. */
export function copyLine(values: readonly CopyValue[]): string {
  let line = field(values[0])
  for (let i = 1; i < values.length; i++) line += `\t${field(values[i])}`
  return `${line}\n`
}

/** Writes lines of COPY's text format, holding at most one chunk of them. Returns how many. */
export async function copyText(tx: Tx, table: string, columns: readonly string[], lines: Iterable<string>): Promise<number> {
  const stream = tx.client.query(copyFrom(`COPY ${table} (${columns.join(', ')}) FROM STDIN`))
  const failed = new Promise<never>((_, reject) => stream.once('error', reject))
  failed.catch(() => undefined) // awaited below where it matters
  let count = 0
  let chunk = ''
  for (const line of lines) {
    chunk += line
    count++
    if (chunk.length < CHUNK_CHARS) continue
    if (!stream.write(chunk)) await Promise.race([once(stream, 'drain'), failed])
    chunk = ''
  }
  stream.end(chunk)
  await Promise.race([once(stream, 'finish'), failed])
  return count
}

/** Writes rows by COPY. Returns how many. */
export async function copyRows(tx: Tx, table: string, columns: readonly string[], rows: Iterable<readonly CopyValue[]>): Promise<number> {
  return copyText(tx, table, columns, linesOf(rows))
}

function* linesOf(rows: Iterable<readonly CopyValue[]>): Generator<string> {
  for (const row of rows) yield copyLine(row)
}
