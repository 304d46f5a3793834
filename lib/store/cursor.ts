import { createHash } from 'node:crypto'

/** Types of the sort keys that continue a list, as PostgreSQL calls them. */
export type CursorKey = 'int' | 'float8' | 'text'

/** A cursor that is none of this list's: the caller made it up, cut it short, or took it from a list with another filter or order. */
export class BadCursor extends Error {
  constructor(readonly cursor: string) {
    super(`'${cursor}' is no cursor of this list.`)
    this.name = 'BadCursor'
  }
}

/** What a list was asked for: its name, filter and order. A page of one does not continue another. */
export type Asked = readonly (string | number | boolean | null | undefined)[]

/** Where a page ended: the sort keys of its last row, and a mark of the list that they continue. Opaque to callers. */
function toCursor(keys: readonly (string | number)[], asked: Asked): string {
  return Buffer.from(JSON.stringify([markOf(asked), ...keys])).toString('base64url')
}

const markOf = (asked: Asked): string => createHash('sha256').update(JSON.stringify(asked.map((part) => part ?? null))).digest('base64url').slice(0, 8)

/** Null where there is none. @throws BadCursor where the text is no cursor of this list with these keys */
export function fromCursor(cursor: string | undefined, types: readonly CursorKey[], asked: Asked): (string | number)[] | null {
  if (cursor === undefined) return null
  const [mark, ...keys] = parsed(cursor)
  if (mark === markOf(asked) && keys.length === types.length && types.every((type, at) => FITS[type](keys[at]))) {
    return keys as (string | number)[]
  }
  throw new BadCursor(cursor)
}

const MAX_INT = 2 ** 31 - 1

const FITS: Record<CursorKey, (key: unknown) => boolean> = {
  int: (key) => typeof key === 'number' && Number.isInteger(key) && Math.abs(key) <= MAX_INT,
  float8: (key) => typeof key === 'number' && Number.isFinite(key),
  text: (key) => typeof key === 'string' && !key.includes('\0'),
}

function parsed(cursor: string): unknown[] {
  try {
    const value: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'))
    return Array.isArray(value) ? value : []
  } catch {
    return []
  }
}

/** One row more than asked for was fetched, to know whether another page follows. */
export function pageOf<T>(rows: T[], limit: number, keysOf: (row: T) => (string | number)[], asked: Asked): { items: T[]; next_cursor: string | null } {
  const items = rows.slice(0, limit)
  const last = items.at(-1)
  return { items, next_cursor: rows.length > limit && last ? toCursor(keysOf(last), asked) : null }
}
