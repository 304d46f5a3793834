import { shortDistanceM } from '../earth/geodesic'

/** Ends this close are one point that was drawn twice. */
export const JOIN_M = 5

export interface LoosePiece {
  row: number
  lonLat: Float64Array
}

export interface Join {
  piece: number
  /** At the chain's end or its start. */
  at: 'end' | 'start'
  flip: boolean
  gapM: number
}

/** Vertices from both sides as a list that grows at either end. */
export class Chain {
  lonLat: number[]

  constructor(first: Float64Array) {
    this.lonLat = Array.from(first)
  }

  /** The loose piece whose end lies nearest to an end of the chain; the first that meets it wins, ahead before back. */
  nearest(loose: readonly LoosePiece[]): Join | undefined {
    let best: Join | undefined
    const flat = this.lonLat
    for (const at of ['end', 'start'] as const) {
      const lon = at === 'end' ? flat.at(-2)! : flat[0]!
      const lat = at === 'end' ? flat.at(-1)! : flat[1]!
      for (const [piece, { lonLat }] of loose.entries()) {
        const firstM = shortDistanceM(lon, lat, lonLat[0]!, lonLat[1]!)
        const lastM = shortDistanceM(lon, lat, lonLat.at(-2)!, lonLat.at(-1)!)
        const gapM = Math.min(firstM, lastM)
        if (best && gapM >= best.gapM) continue
        best = { piece, at, flip: at === 'end' ? lastM < firstM : firstM < lastM, gapM }
        if (gapM <= JOIN_M) return best
      }
    }
    return best
  }

  add(lonLat: Float64Array, { at, flip, gapM }: Join): void {
    const flat = flip ? flipped(lonLat) : Array.from(lonLat)
    const met = gapM <= JOIN_M
    // Of two vertices that meet only one is kept.
    if (at === 'end') this.lonLat = this.lonLat.concat(met ? flat.slice(2) : flat)
    else this.lonLat = (met ? flat.slice(0, -2) : flat).concat(this.lonLat)
  }

  /** Whether an end of a piece stands on a vertex inside the chain: then it branches off. */
  touchesInside({ lonLat }: LoosePiece): boolean {
    const flat = this.lonLat
    for (const [lon, lat] of [[lonLat[0]!, lonLat[1]!], [lonLat.at(-2)!, lonLat.at(-1)!]] as const) {
      for (let i = 2; i < flat.length - 2; i += 2) {
        if (Math.abs(flat[i + 1]! - lat) < 1e-4 && shortDistanceM(flat[i]!, flat[i + 1]!, lon, lat) <= JOIN_M) return true
      }
    }
    return false
  }
}

function flipped(lonLat: Float64Array): number[] {
  const flat: number[] = []
  for (let i = lonLat.length - 2; i >= 0; i -= 2) flat.push(lonLat[i]!, lonLat[i + 1]!)
  return flat
}
