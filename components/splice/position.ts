import { AT_STRUCTURE_M } from '@/lib/geo/position-text'
import { interfacesOf } from '@/lib/condition/interfaces'
import { SPLICE_KINDS } from '@/lib/condition/types'
import { formatAlong, formatLineDistance, type UnitSystem } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'

export interface PlaceOnLine {
  section?: string | null
  structure_back: string | null
  structure_ahead: string | null
  /** Ahead of structure_back, else of the section's named end; metres. */
  offset_m: number
  line_distance_m: number
  phase: string | null
  position: string | null
  circuit_side: string | null
  subconductor: string | null
}

export type PhaseLetters = Record<string, string>

/** 'STR 45-46'; one named neighbour reads 'STR 45, ahead'; null where neither structure is named: no number is ever invented. */
export function spanText(back: string | null, ahead: string | null): string | null {
  if (back && ahead) return `STR ${back}-${ahead}`
  if (back) return `STR ${back}, ahead`
  return ahead ? `STR ${ahead}, back` : null
}

/** 'STR 45-46 + 403 ft'; without a named structure behind, the line distance from the section's end. */
export function alongText(place: PlaceOnLine, system: UnitSystem): string {
  const span = spanText(place.structure_back, place.structure_ahead)
  if (!place.structure_back) {
    const distance = `line distance ${formatLineDistance(place.line_distance_m, system)}`
    return span ? `${span}, ${distance}` : distance
  }
  return Math.abs(place.offset_m) < AT_STRUCTURE_M ? `${span}, at STR ${place.structure_back}` : `${span} + ${formatAlong(place.offset_m, system)}`
}

/** 'phase A', or the position with 'phase not confirmed': never a guess. */
export function phaseText(place: Pick<PlaceOnLine, 'phase' | 'position'>, letters: PhaseLetters = {}): string {
  if (place.phase) return `phase ${letters[place.phase] ?? place.phase}`
  return place.position ? `${place.position}, phase not confirmed` : 'phase not confirmed'
}

/** The trade's words: 'STR 45-46 + 403 ft, phase A, left circuit'. */
export function positionText(place: PlaceOnLine, system: UnitSystem, letters?: PhaseLetters): string {
  const position = place.position && spell(place.position, system)
  return [
    alongText(place, system),
    phaseText({ ...place, position }, letters),
    place.phase && position ? position : '',
    place.circuit_side ? `${place.circuit_side} circuit` : '',
    place.subconductor ? `subconductor ${place.subconductor}` : '',
  ].filter(Boolean).join(', ')
}

/** Shares of a span as people say them. */
const SHARES = [[1 / 4, 'a quarter'], [1 / 3, 'one third'], [1 / 2, 'halfway'], [2 / 3, 'two thirds'], [3 / 4, 'three quarters']] as const
/** Nearer to one of them than this, a share of a span, a place is told by it. */
const NEAR_SHARE = 0.042

/** 'one third ahead of 45', as people say it on the telephone; empty where no structure behind is named or the span has no length. */
export function spokenText({ structure_back: back, structure_ahead: ahead, offset_m: offsetM }: Pick<PlaceOnLine, 'structure_back' | 'structure_ahead' | 'offset_m'>, spanM: number): string {
  if (back === null || ahead === null || spanM <= 0 || Math.abs(offsetM) < AT_STRUCTURE_M) return ''
  const share = offsetM / spanM
  if (share <= 0 || share >= 1) return ''
  const [at, words] = [...SHARES].sort((a, b) => Math.abs(a[0] - share) - Math.abs(b[0] - share))[0] ?? SHARES[0]
  if (Math.abs(at - share) <= NEAR_SHARE) return words === 'halfway' ? `halfway between ${back} and ${ahead}` : `${words} ahead of ${back}`
  if (share < 0.5) return `a ${share < 0.15 ? 'tenth' : 'fifth'} ahead of ${back}`
  return `a ${share > 0.85 ? 'tenth' : 'fifth'} back of ${ahead}`
}

export interface SidedPlace extends Pick<PlaceOnLine, 'structure_back' | 'structure_ahead'> {
  kind: string
}

/**
 * The structure that a side faces, A the one of the lower line distance; on a fitting without such sides, the interface it stands
 * for. Where nobody noted what a side faces, nothing is made up.
 */
export function sideName(side: 'A' | 'B', place: SidedPlace, declared = true): string {
  const kind = SPLICE_KINDS.find((k) => k === place.kind)
  const name = kind && interfacesOf(kind).names[side]
  if (name && name !== `side ${side}`) return `Side ${side}, ${name}`
  if (!declared) return `Side ${side}, facing not noted`
  const structure = side === 'A' ? place.structure_back : place.structure_ahead
  return structure ? `Side ${side}, toward STR ${structure}` : `Side ${side}, ${side === 'A' ? 'back' : 'ahead'}`
}

/** WGS84 degrees to copy into any other program: latitude first, as people and handheld receivers write it. */
export const coordinateText = (lon: number, lat: number): string => `${lat.toFixed(6)}, ${lon.toFixed(6)}`

/** The same as an address that a device opens in its own maps (RFC 5870: latitude first, WGS84). */
export const geoUri = (lon: number, lat: number): string => `geo:${lat.toFixed(6)},${lon.toFixed(6)}`
