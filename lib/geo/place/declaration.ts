import type { PlacementReason } from '../types'

/** A stretch of one section that a reading names; from = to: one point. */
export interface DeclaredPlace {
  section: number
  fromM: number
  toM: number
  /** Row of the splice that is named, if any. */
  spliceRow?: number
}

/** What a reading says of its own place, read against the network. Places are alternatives; none: nothing that places it is named. */
export interface Declaration {
  places: readonly DeclaredPlace[]
  by: 'splice' | 'structures' | 'circuit' | 'side'
  /** Lateral side for circuits on shared structures: −1 left, 1 right, looking ahead. */
  side?: -1 | 1
  /** Names nobody knows, or evidence that contradicts itself: a person decides. */
  fault?: PlacementReason
}

/** Sections by index, as an array or a column holds them. */
export interface SectionSet {
  includes(section: number): boolean
}

/** Every line has a structure 1: a name on more places than this tells none of them. */
export const MOST_PLACES = 50

/** Of many places that a reading may name, this many are offered. */
export const MOST_OFFERED = 8

export const fault = (code: PlacementReason['code'], values: Record<string, number | string>): PlacementReason => ({ code, values })
