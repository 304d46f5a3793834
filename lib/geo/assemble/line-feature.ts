import type { GeoIssue } from '../types'

/** What joining needs of a line feature; intake's line record fits as it is. */
export interface LineFeature {
  rowNo: number
  circuit: string
  /** Null: the circuit's only section, 'main'. */
  section: string | null
  /** Flat lon,lat,… degrees WGS84, in file order. */
  pieces: readonly Float64Array[]
}

export interface AssembledSection<F extends LineFeature = LineFeature> {
  circuit: string
  section: string
  /** The features it was joined from, in file order: they carry the attributes. */
  features: readonly F[]
  /** Flat lon,lat,… of the shared centreline, from the named end. */
  lonLat: Float64Array
  /** Line distance of each vertex, metres. */
  distancesM: Float64Array
  lengthM: number
}

export const MAIN_SECTION = 'main'

export const sectionName = (name: string | null): string => name?.trim() || MAIN_SECTION

/** 'circuit X' or 'circuit X, section Y', as an issue names it. */
export const sectionWords = (circuit: string, section: string): string =>
  section === MAIN_SECTION ? `circuit ${circuit}` : `circuit ${circuit}, section ${section}`

/** A length as `localText` turns it into the reader's units. */
export const metresWords = (lengthM: number): string => `{${lengthM < 9.95 ? lengthM.toFixed(1) : Math.round(lengthM)} m}`

export const warning = (row: number, code: string, message: string, remedy: string, more: Partial<GeoIssue> = {}): GeoIssue =>
  ({ severity: 'warning', row, code, message, remedy, ...more })

export const error = (row: number, code: string, message: string, remedy: string, more: Partial<GeoIssue> = {}): GeoIssue =>
  ({ severity: 'error', row, code, message, remedy, ...more })
