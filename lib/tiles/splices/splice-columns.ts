import { CONDITION_CLASSES } from '@/lib/condition/types'
import type { PackedSplices } from '@/lib/store/tile-sources'

/** The order of classes inside tiles: worst last, then unknown. */
export const TILE_CLASSES = CONDITION_CLASSES
export const CLASS_COUNT = TILE_CLASSES.length
export const UNKNOWN = CLASS_COUNT - 1

/** What filters look at, held once for all splices that share it. */
export interface SpliceGroup {
  circuitId: number
  voltageKv: number | null
  /** Null: not confirmed. */
  phase: string | null
}

/** Latest state of every splice, a column per fact, rows in any order. */
export interface SpliceColumns {
  id: Int32Array
  /** Degrees, WGS84. */
  lonDeg: Float64Array
  latDeg: Float64Array
  /** Index into TILE_CLASSES. */
  classNo: Uint8Array
  /** Bearing of the line through it, 0 … 179 degrees: a line has no front. */
  axisDeg: Uint8Array
  /** Index into groups. */
  groupNo: Uint32Array
  groups: SpliceGroup[]
  /** UTF-8, one name a row, each but the last ended by a zero byte (no text in the store holds one). */
  names: Uint8Array
}

const EMPTY = Buffer.alloc(0)

/** Big-endian as PostgreSQL sends, into the machine's own order in an array of its own. */
function numbers<T>(packed: Buffer | null, bytes: 4 | 8, make: new (buffer: ArrayBuffer) => T): T {
  const own = Buffer.from(new ArrayBuffer(packed?.length ?? 0))
  packed?.copy(own)
  if (bytes === 4) own.swap32()
  else own.swap64()
  return new make(own.buffer)
}

/** Assumes a little-endian machine, as every platform of Node 20 but one is. */
export function unpackSplices(packed: PackedSplices): SpliceColumns {
  return {
    groups: packed.groups,
    id: numbers(packed.id, 4, Int32Array),
    lonDeg: numbers(packed.lon, 8, Float64Array),
    latDeg: numbers(packed.lat, 8, Float64Array),
    classNo: packed.class_no ?? EMPTY,
    axisDeg: packed.axis_deg ?? EMPTY,
    groupNo: numbers(packed.group_no, 4, Uint32Array),
    names: packed.names ?? EMPTY,
  }
}
