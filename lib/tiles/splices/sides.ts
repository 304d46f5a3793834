import { bearingDeg } from '../circuits/network-lines'
import { lanesLeft, spanLanes, type LaneSpan } from '../circuits/lanes'
import { WORLD } from './morton'

/** Equator of the sphere that Web Mercator draws on, metres. */
const EQUATOR_M = 40_075_016.686

/** A step on screen, right and down. */
export type Step = readonly [right: number, down: number]

/** How a splice stands beside the centreline of structures that several circuits share. */
export interface Side {
  /** From its place on the conductor to the centreline, world units. */
  toCentre: Step
  /** One lane's width times its lane, square to the line: where lines are drawn apart by lanes. */
  byLane: Step
  /** The same where lines lie at their true offsets and only those of unknown offset still need lanes. */
  byLaneLeft: Step
  /** One unit along the line. */
  along: Step
}

const STRAIGHT: Step = [0, 0]
const ALONE: Side = { toCentre: STRAIGHT, byLane: STRAIGHT, byLaneLeft: STRAIGHT, along: STRAIGHT }

/** Sides by number, and the number of each span; number 0 is every span that has its structures to itself. */
export function sidesOfSpans(shared: LaneSpan[]): { sides: Side[]; numberOf: Map<number, number> } {
  const lanes = spanLanes(shared)
  const left = lanesLeft(shared)
  const sides: Side[] = [ALONE]
  const numberOf = new Map<number, number>()
  for (const { id, lonLat, lateralOffsetM } of shared) {
    const [lon = 0, lat = 0] = lonLat
    const [lon2 = 0, lat2 = 0] = lonLat.slice(-2)
    const bearing = (bearingDeg(lon, lat, lon2, lat2) * Math.PI) / 180
    const right: Step = [Math.cos(bearing), Math.sin(bearing)]
    const times = (by: number): Step => [by * right[0], by * right[1]]
    const worldPerM = WORLD / (EQUATOR_M * Math.cos((((lat + lat2) / 2) * Math.PI) / 180))
    numberOf.set(id, sides.length)
    sides.push({
      toCentre: times(-(lateralOffsetM ?? 0) * worldPerM), byLane: times(lanes.get(id)?.lane ?? 0), byLaneLeft: times(left.get(id)?.lane ?? 0),
      along: [Math.sin(bearing), -Math.cos(bearing)],
    })
  }
  return { sides, numberOf }
}
