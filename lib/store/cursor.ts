/** Types of the sort keys that continue a list, as PostgreSQL calls them. */
export type CursorKey = 'int' | 'float8' | 'text'

/** A cursor that is none of this list's: the caller made it up, cut it short, or took it from a list in another order. */
export class BadCursor extends Error {
  constructor(readonly cursor: string) {
    super(`'${cursor}' is no cursor of this list.`)
    this.name = 'BadCursor'
  }
}

/** Where a page ended: the sort keys of its last row. Opaque to callers. */
function toCursor(keys: readonly (string | number)[]): string {
  return Buffer.from(JSON.stringify(keys)).toString('base64url')
}

/** Null where there is none. @throws BadCursor where the text is no cursor of a list with these keys */
export function fromCursor(cursor: string | undefined, types: readonly CursorKey[]): (string | number)[] | null {
  if (cursor === undefined) return null
  const keys = parsed(cursor)
  if (Array.isArray(keys) && keys.length === types.length && types.every((type, at) => FITS[type](keys[at]))) {
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

function parsed(cursor: string): unknown {
  try {
    return JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'))
  } catch {
    return null
  }
}

/** One row more than asked for was fetched, to know whether another page follows. */
export function pageOf<T>(rows: T[], limit: number, keysOf: (row: T) => (string | number)[]): { items: T[]; next_cursor: string | null } {
  const items = rows.slice(0, limit)
  const last = items.at(-1)
  return { items, next_cursor: rows.length > limit && last ? toCursor(keysOf(last)) : null }
}
