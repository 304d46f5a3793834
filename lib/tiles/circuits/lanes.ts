import type { LineSpan } from '@/lib/store/tile-sources'
import { spanEnds } from './network-lines'

/** As much of a span as lanes depend on; of its line only the ends count. */
export type LaneSpan = Pick<LineSpan, 'id' | 'circuitId' | 'lateralOffsetM' | 'lonLat'>

interface Rider { circuitId: number; start: string; lateralOffsetM: number | null; spanIds: number[] }

/** Who runs through each pair of structures, lowest circuit id first. */
function ridersByPair(spans: LaneSpan[]): Map<string, Rider[]> {
  const pairs = new Map<string, Rider[]>()
  for (const span of spans) {
    const { start, pair } = spanEnds(span)
    const riders = pairs.get(pair)
    const same = riders?.find((r) => r.circuitId === span.circuitId)
    const rider = { circuitId: span.circuitId, start, lateralOffsetM: span.lateralOffsetM, spanIds: [span.id] }
    if (same) same.spanIds.push(span.id)
    else if (riders) riders.push(rider)
    else pairs.set(pair, [rider])
  }
  for (const riders of pairs.values()) riders.sort((a, b) => a.circuitId - b.circuitId)
  return pairs
}

export interface SpanLane {
  /** 0 where the span shares nothing. */
  lane: number
  /** Circuits on these structures, across the corridor from left to right as the lowest id looks. */
  riders: number[]
}

/**
 * A signed lane for every span that shares its structures with other circuits: two circuits get -0.5 and 0.5, three -1, 0 and 1. Positive
 * lies right of the span's own direction, so that a renderer's line offset puts them side by side. Order across the corridor follows the
 * lateral offsets where they are known, else the circuits' ids; the circuit of the lowest id gives the direction to look in, so that
 * nobody changes sides along a corridor.
 */
export function spanLanes(spans: LaneSpan[]): Map<number, SpanLane> {
  const lanes = new Map<number, SpanLane>()
  for (const riders of ridersByPair(spans).values()) {
    const first = riders[0]
    if (!first) continue
    const placed = riders.map((rider) => {
      const sign = rider.start === first.start ? 1 : -1
      return { rider, sign, acrossM: rider.lateralOffsetM === null ? null : sign * rider.lateralOffsetM }
    })
    const known = placed.every((p) => p.acrossM !== null)
    if (known) placed.sort((a, b) => (a.acrossM ?? 0) - (b.acrossM ?? 0) || a.rider.circuitId - b.rider.circuitId)
    const ids = placed.map((p) => p.rider.circuitId)
    placed.forEach(({ rider, sign }, i) => {
      const offset = i - (placed.length - 1) / 2
      for (const id of rider.spanIds) lanes.set(id, { lane: offset === 0 ? 0 : sign * offset, riders: ids })
    })
  }
  return lanes
}

/**
 * Lanes where lines are drawn at their true offsets: only circuits that share their structures and have no offset of their own still need
 * one, since they would lie on each other.
 */
export const lanesLeft = (spans: LaneSpan[]): Map<number, SpanLane> => spanLanes(spans.filter((s) => s.lateralOffsetM === null))
