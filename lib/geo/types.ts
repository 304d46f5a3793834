/** Degrees, WGS84, longitude first as in RFC 7946. */
export type LonLat = readonly [lon: number, lat: number]

export interface NetworkSection {
  sectionId: number
  circuitId: number
  circuit: string
  section: string
  voltageKv?: number
  /** Left negative, looking ahead; undefined: not known, so circuits on shared structures cannot be told apart by position. */
  lateralOffsetM?: number
  lengthM: number
  /** Flat lon,lat,… of the shared centreline. */
  lonLat: Float64Array
}

export interface NetworkSpan {
  spanId: number
  sectionId: number
  circuitId: number
  structureBack?: string
  structureAhead?: string
  /** Line distance from the section's named end, metres. */
  startM: number
  endM: number
  lonLat: Float64Array
}

/** A structure as one section knows it; a structure that carries several circuits stands here once for each of their sections. */
export interface NetworkStructure {
  sectionId: number
  /** Text, as it stands on the structure: '045', '12/3', '45A'. */
  label: string
  aliases?: readonly string[]
  lineDistanceM: number
}

export interface PhasingRow {
  circuitId: number
  /** Line distance runs per section; undefined: the row counts on every section of the circuit. */
  sectionId?: number
  startM: number
  endM: number
  position: string
  phase: string
}

export interface KnownSplice {
  spliceId: number
  label?: string
  circuitId: number
  sectionId: number
  spanId: number
  lineDistanceM: number
  phase?: string
  position?: string
  circuitSide?: string
  subconductor?: string
}

/** A reading as placing sees it. */
export interface PointToPlace {
  /** The caller's index; outcomes come back under it. */
  index: number
  lon?: number
  lat?: number
  /** Standard deviation per axis, metres. */
  sigmaM: number
  positionOf: 'target' | 'platform'
  platform?: string
  takenAtMs?: number
  survey?: string
  crew?: string
  instrument?: string
  circuit?: string
  section?: string
  structureBack?: string
  structureAhead?: string
  offsetFromStructureM?: number
  spanFraction?: number
  phase?: string
  position?: string
  circuitSide?: string
  subconductor?: string
  spliceLabel?: string
  /** Different photos of one pass are different fittings until a person says otherwise. */
  photo?: string
}

export type PlacementMethod = 'declared' | 'track' | 'alone' | 'person'

export type PlacementReasonCode =
  | 'declared-splice' | 'declared-circuit' | 'declared-structures' | 'declared-contradicts-position' | 'declared-contradicts-declared' | 'declared-unknown'
  | 'track-matched' | 'track-broken' | 'track-residuals' | 'track-offset' | 'circuit-by-track' | 'circuits-in-turn' | 'low-probability' | 'nothing-in-reach'
  | 'two-splices-in-reach' | 'phase-missing' | 'phase-from-position' | 'phase-not-confirmed' | 'shared-structures-no-offset'
  | 'no-position' | 'position-zero' | 'new-splice' | 'same-pass-different-label' | 'person-accepted' | 'person-dragged' | 'person-rejected'

export interface PlacementReason {
  code: PlacementReasonCode
  values?: Record<string, number | string>
}

export interface PlacementCandidate {
  circuitId: number
  circuit: string
  sectionId: number
  section: string
  spanId: number
  structureBack?: string
  structureAhead?: string
  lineDistanceM: number
  offsetFromStructureM: number
  lon: number
  lat: number
  /** Signed distance from the conductor, left negative looking ahead. */
  offsetM: number
  probability: number
  /** Splices of the right phase within reach along the line, nearest first. */
  splices: { spliceId: number; label?: string; alongM: number; phase?: string }[]
}

export interface PlacementOutcome {
  index: number
  state: 'placed' | 'review'
  method: PlacementMethod
  /** The best candidate where placed. */
  chosen?: PlacementCandidate
  /** Existing splice, or a new one to be made; readings of one new splice share newSpliceKey. */
  spliceId?: number
  newSpliceKey?: string
  /** Phase after the phasing table, if any. */
  phase?: string
  probability?: number
  reasons: PlacementReason[]
  candidates: PlacementCandidate[]
}

/** Readings of one survey, crew and instrument that were matched as a path. */
export interface TrackSummary {
  key: string
  count: number
  estimatedOffsetM?: number
  chiSquare?: number
  degreesOfFreedom?: number
  matched: boolean
}

/** Everything a person may want to set about placing. Common practice and our own choices, without a source unless one is named. */
export interface PlacingOptions {
  /** Under this share a person decides. */
  minProbability: number
  /** Search radius is the larger of this and three sigma, metres. */
  searchM: number
  /** Search radius where the position is the platform's, metres. */
  platformSearchM: number
  /** A splice is in reach within this plus two sigma along the line, metres. */
  spliceReachM: number
  /** Share of steps at which a crew changes the circuit before the survey itself says more. */
  switchShare: number
  /** Share of declared circuits and structures that are right. */
  declaredShare: number
  /** Part of sigma that all readings of a track have in common. */
  sharedSigmaShare: number
  /** Aircraft tracks break at a pause or a jump of this size. */
  aircraftBreakMs: number
  aircraftBreakM: number
  /** Ground tracks break where nobody could have driven, metres per second. */
  groundSpeedMS: number
  /** Fewer readings than this are no track: each is placed alone. */
  minTrackReadings: number
  /** Most candidates kept with an outcome. */
  maxCandidates: number
}

/** A splice that readings found and nobody knew: to be made once for all outcomes that carry its key. */
export interface NewSplice {
  key: string
  circuitId: number
  sectionId: number
  spanId: number
  /** Median of its readings. */
  lineDistanceM: number
  /** Ahead of the structure back, else of the section's start. */
  offsetFromStructureM: number
  lon: number
  lat: number
  readings: number
  /** The name its readings give it, if any. */
  label?: string
  phase?: string
  position?: string
  circuitSide?: string
  subconductor?: string
  structureBack?: string
  structureAhead?: string
}

export interface PlacingSummary {
  tracks: TrackSummary[]
  newSplices: NewSplice[]
}

export interface PlacingResult extends PlacingSummary {
  /** One per point, in the order of the points. */
  outcomes: PlacementOutcome[]
}

/** One thing that somebody should look at. Fits intake's row issue; row 0: the file as a whole. */
export interface GeoIssue {
  severity: 'error' | 'warning'
  row: number
  field?: string
  value?: string
  code: string
  message: string
  remedy: string
}
