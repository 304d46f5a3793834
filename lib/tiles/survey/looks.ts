import type { SurveyPhase } from '@/lib/contract/survey-layer'

/** In the order of the store's packing; '' is a phase that nobody confirmed. */
const PHASES = ['A', 'B', 'C', ''] as const
const INTS = 1 + 3 * PHASES.length
const LAST_BIT = 30

/** What the store knows of who looked at which spans, without an object for each. */
export interface SpanLooks {
  /** Bit 0: this year and all before it. */
  firstYear: number
  rowOf: Map<number, number>
  /** INTS numbers a row, see `packedLooks`. */
  packed: Int32Array
}

/** Thirty years are told apart, up to the present one. */
export const firstYearAt = (nowMs: number): number => new Date(nowMs).getUTCFullYear() - LAST_BIT

/** Assumes a little-endian machine, as every platform of Node 20 but one is. */
export function unpackLooks(bytes: Buffer | null, firstYear: number): SpanLooks {
  const own = Buffer.from(new ArrayBuffer(bytes?.length ?? 0))
  bytes?.copy(own)
  own.swap32()
  const packed = new Int32Array(own.buffer)
  const rowOf = new Map<number, number>()
  for (let row = 0; row * INTS < packed.length; row++) rowOf.set(packed[row * INTS]!, row)
  return { firstYear, rowOf, packed }
}

export interface PhaseLooks {
  /** Years, as bits from the first, in which the phase was read. */
  read: number
  /** In which a flight or patrol that wrote down its finds alone went along. */
  patrolled: number
  /** Known splices in service. */
  splices: number
}

const NONE: PhaseLooks = { read: 0, patrolled: 0, splices: 0 }

export function phaseLooks({ rowOf, packed }: SpanLooks, spanId: number, phase: SurveyPhase | ''): PhaseLooks {
  const row = rowOf.get(spanId)
  if (row === undefined) return NONE
  const at = row * INTS + 1 + PHASES.indexOf(phase)
  return { read: packed[at]!, patrolled: packed[at + PHASES.length]!, splices: packed[at + 2 * PHASES.length]! }
}

/** Bits of these years; those before the first count as the first. All there are where none is named. */
export function yearBits(years: readonly number[] | undefined, firstYear: number): number {
  if (!years) return 0x7fffffff
  return years.reduce((bits, year) => (year > firstYear + LAST_BIT ? bits : bits | (1 << Math.max(0, year - firstYear))), 0)
}

/** The newest year of some bits; undefined of none. */
export const newestYear = (bits: number, firstYear: number): number | undefined => (bits === 0 ? undefined : firstYear + 31 - Math.clz32(bits))

/** Years in which anybody looked at these spans, the newest first. */
export function yearsOf(looks: SpanLooks, spanIds: Iterable<number>): number[] {
  let bits = 0
  for (const id of spanIds) {
    for (const phase of PHASES) {
      const { read, patrolled } = phaseLooks(looks, id, phase)
      bits |= read | patrolled
    }
  }
  return Array.from({ length: LAST_BIT + 1 }, (_, i) => LAST_BIT - i).filter((i) => bits & (1 << i)).map((i) => looks.firstYear + i)
}
