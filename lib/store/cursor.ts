/** Where a page ended: the sort keys of its last row. Opaque to callers. */
function toCursor(keys: readonly (string | number)[]): string {
  return Buffer.from(JSON.stringify(keys)).toString('base64url')
}

/** Null where the text is no cursor of ours, which a caller answers as if there were none. */
export function fromCursor(cursor: string | undefined, length: number): (string | number)[] | null {
  if (!cursor) return null
  try {
    const keys: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'))
    const whole = Array.isArray(keys) && keys.length === length && keys.every((k) => typeof k === 'string' || typeof k === 'number')
    return whole ? keys : null
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
