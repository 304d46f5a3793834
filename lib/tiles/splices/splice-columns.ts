import { CONDITION_CLASSES } from '@/lib/condition/types'
import type { PackedNetwork } from '@/lib/store/tile-sources'
import { sidesOfSpans, type Side } from './sides'

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
  /** By which day, since 1970 UTC, it is to be measured again: past it, a sound or watch class says how it was. */
  renewByDay: Int32Array
  /** Bearing of the line through it, 0 … 179 degrees: a line has no front. */
  axisDeg: Uint8Array
  /** Index into sides; 0, or no row at all, where the circuit has its structures to itself. */
  sideNo: Uint32Array
  sides: Side[]
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

/** One group for every circuit and phase that occur together. */
function groupsOf({ splices, circuits }: PackedNetwork): Pick<SpliceColumns, 'groups' | 'groupNo'> {
  const circuitId = numbers(splices.circuit_id, 4, Int32Array)
  const phaseNo = numbers(splices.phase_no, 4, Int32Array)
  const phases = splices.phases ?? []
  const voltage = new Map(circuits.map((c) => [c.id, c.voltageKv]))
  const numberOf = new Map<number, number>()
  const groups: SpliceGroup[] = []
  const groupNo = new Uint32Array(circuitId.length)
  for (let i = 0; i < groupNo.length; i++) {
    const key = circuitId[i]! * phases.length + phaseNo[i]!
    let no = numberOf.get(key)
    if (no === undefined) {
      no = groups.length
      numberOf.set(key, no)
      groups.push({ circuitId: circuitId[i]!, voltageKv: voltage.get(circuitId[i]!) ?? null, phase: phases[phaseNo[i]!] || null })
    }
    groupNo[i] = no
  }
  return { groups, groupNo }
}

function axesOf({ splices, axes }: PackedNetwork): Uint8Array {
  const spanId = numbers(axes.span_id, 4, Int32Array)
  const axisOf = new Map(Array.from(spanId, (id, i) => [id, axes.axis_deg?.[i] ?? 0]))
  return Uint8Array.from(numbers(splices.span_id, 4, Int32Array), (id) => axisOf.get(id) ?? 0)
}

function sidesOf({ splices, shared }: PackedNetwork): Pick<SpliceColumns, 'sides' | 'sideNo'> {
  const { sides, numberOf } = sidesOfSpans(shared)
  const spanId = shared.length > 0 ? numbers(splices.span_id, 4, Int32Array) : new Int32Array()
  return { sides, sideNo: Uint32Array.from(spanId, (id) => numberOf.get(id) ?? 0) }
}

/** Assumes a little-endian machine, as every platform of Node 20 but one is. */
export function unpackSplices(packed: PackedNetwork): SpliceColumns {
  const { splices } = packed
  return {
    ...groupsOf(packed),
    ...sidesOf(packed),
    id: numbers(splices.id, 4, Int32Array),
    lonDeg: numbers(splices.lon, 8, Float64Array),
    latDeg: numbers(splices.lat, 8, Float64Array),
    classNo: splices.class_no ?? EMPTY,
    renewByDay: numbers(splices.renew_by_day, 4, Int32Array),
    axisDeg: axesOf(packed),
    names: splices.names ?? EMPTY,
  }
}
