export type Column = Int32Array | Float64Array | Uint8Array

/** The same column with twice the room. */
export function wider<T extends Column>(column: T): T {
  const room = new (column.constructor as new (length: number) => T)(2 * column.length)
  room.set(column)
  return room
}
