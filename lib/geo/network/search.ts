import { metresPerLatDegree, metresPerLonDegree } from '../earth/wgs84'
import type { Network } from './network'

/** More than this many lines side by side are not told apart by position anyway: the farthest are left out. */
const MOST_FOUND = 16

/**
 * Nearest place on each section within a radius, found with the span index and planar maths on the WGS84 radii.
 * A section that comes by twice counts twice when the way along it between both is over three radii.
 * One object serves many searches: its columns hold the last one's finds, nearest first, up to `count`.
 */
export class SpanSearch {
  count = 0
  readonly section = new Int32Array(MOST_FOUND)
  readonly piece = new Int32Array(MOST_FOUND)
  /** Share of the piece, 0 … 1. */
  readonly share = new Float64Array(MOST_FOUND)
  readonly distanceM = new Float64Array(MOST_FOUND)
  /** Left negative, looking ahead. */
  readonly offsetM = new Float64Array(MOST_FOUND)
  readonly lineDistanceM = new Float64Array(MOST_FOUND)

  private lon = 0
  private lat = 0
  private radiusM = 0
  private readonly weigh = (piece: number): boolean => {
    this.weighPiece(piece)
    return false
  }

  constructor(private readonly network: Network) {}

  /** Degrees and metres. Returns the number of finds. */
  search(lon: number, lat: number, radiusM: number): number {
    this.count = 0
    const { index } = this.network
    if (!index) return 0
    const latSpan = radiusM / metresPerLatDegree(lat)
    const lonSpan = Math.min(radiusM / Math.max(metresPerLonDegree(lat), 1e-6), 180)
    this.lat = lat
    this.radiusM = radiusM
    this.look(lon, lonSpan, latSpan)
    if (lon + lonSpan > 180) this.look(lon - 360, lonSpan, latSpan)
    if (lon - lonSpan < -180 || index.maxX > 180) this.look(lon + 360, lonSpan, latSpan)
    this.sortFinds()
    return this.count
  }

  private look(lon: number, lonSpan: number, latSpan: number): void {
    this.lon = lon
    this.network.index!.search(lon - lonSpan, this.lat - latSpan, lon + lonSpan, this.lat + latSpan, this.weigh)
  }

  private weighPiece(piece: number): void {
    const { pieces } = this.network
    const east = pieces.eastM[piece]!
    const north = pieces.northM[piece]!
    const dx = (this.lon - pieces.lon[piece]!) * pieces.lonM[piece]!
    const dy = (this.lat - pieces.lat[piece]!) * pieces.latM[piece]!
    const length2 = east * east + north * north
    let share = length2 > 0 ? (dx * east + dy * north) / length2 : 0
    share = share < 0 ? 0 : share > 1 ? 1 : share
    const rx = dx - share * east
    const ry = dy - share * north
    const distanceM = Math.sqrt(rx * rx + ry * ry)
    if (distanceM <= this.radiusM) this.keep(piece, share, distanceM, east * dy - north * dx > 0 ? -distanceM : distanceM)
  }

  private keep(piece: number, share: number, distanceM: number, offsetM: number): void {
    const { pieces } = this.network
    const section = pieces.section[piece]!
    const lineDistanceM = pieces.startM[piece]! + share * pieces.centreM[piece]!
    let slot = 0
    while (slot < this.count && !this.sameStretch(slot, section, lineDistanceM)) slot++
    if (slot === this.count) {
      if (this.count < MOST_FOUND) this.count++
      else slot = this.farthest()
      this.distanceM[slot] = Infinity
    }
    if (distanceM >= this.distanceM[slot]!) return
    this.section[slot] = section
    this.piece[slot] = piece
    this.share[slot] = share
    this.distanceM[slot] = distanceM
    this.offsetM[slot] = offsetM
    this.lineDistanceM[slot] = lineDistanceM
  }

  private sameStretch(slot: number, section: number, lineDistanceM: number): boolean {
    return this.section[slot] === section && Math.abs(this.lineDistanceM[slot]! - lineDistanceM) <= 3 * this.radiusM
  }

  private farthest(): number {
    let slot = 0
    for (let i = 1; i < this.count; i++) if (this.distanceM[i]! > this.distanceM[slot]!) slot = i
    return slot
  }

  /** Insertion sort: there are rarely more than four, and ties fall in the order of sections. */
  private sortFinds(): void {
    for (let i = 1; i < this.count; i++) {
      for (let j = i; j > 0 && this.comesBefore(j, j - 1); j--) this.swap(j, j - 1)
    }
  }

  private comesBefore(a: number, b: number): boolean {
    const difference = this.distanceM[a]! - this.distanceM[b]!
    return difference < 0 || (difference === 0 && this.section[a]! < this.section[b]!)
  }

  private swap(a: number, b: number): void {
    for (const column of [this.section, this.piece, this.share, this.distanceM, this.offsetM, this.lineDistanceM]) {
      const value = column[a]!
      column[a] = column[b]!
      column[b] = value
    }
  }
}
