import type { SpliceKind } from '@/lib/condition/types'
import type { ReadingRecord } from './reading'

interface RecordBase {
  /** 1 = first data row or first feature. */
  rowNo: number
  /** The record as it stood in the file. */
  rawRow: string
}

/** One line feature. Pieces are flat lon,lat,lon,lat… in degrees WGS84, in file order, each of two positions or more. */
export interface LineRecord extends RecordBase {
  recordType: 'line'
  circuit: string
  section: string | null
  lineName: string | null
  from: string | null
  to: string | null
  voltageKv: number | null
  /** Code word as written. */
  conductor: string | null
  subconductors: number | null
  /** Per phase. */
  ratingA: number | null
  ratingEmergencyA: number | null
  maxOperatingC: number | null
  region: string | null
  radial: boolean | null
  mw: number | null
  /** Above sea level. */
  elevationM: number | null
  /** Left negative, looking ahead. */
  lateralOffsetM: number | null
  pieces: Float64Array[]
}

/** A named structure: from the structures file, or a point feature of a lines file. */
export interface StructureRecord extends RecordBase {
  recordType: 'structure'
  /** Null: found by its position alone. */
  circuit: string | null
  section: string | null
  structure: string
  lon: number | null
  lat: number | null
  lineDistanceM: number | null
  structureType: string | null
  aliases: string[]
}

export interface SpliceRecord extends RecordBase {
  recordType: 'splice'
  spliceId: string | null
  circuit: string
  section: string | null
  structureBack: string | null
  structureAhead: string | null
  lineDistanceM: number | null
  phase: string | null
  position: string | null
  circuitSide: string | null
  subconductor: string | null
  kind: SpliceKind
  fittingType: string | null
  barrelOdMm: number | null
  barrelLengthMm: number | null
  /** ISO calendar days. */
  installedOn: string | null
  batch: string | null
  removedOn: string | null
  successorOf: string | null
  /** Only where the file gives a position: FORMATS has none for splices, GeoJSON points do. */
  lon: number | null
  lat: number | null
}

export interface PhasingRecord extends RecordBase {
  recordType: 'phasing'
  circuit: string
  structureFrom: string
  structureTo: string
  position: string
  phase: string
}

export const CROSSING_KINDS = ['road', 'rail', 'river', 'line', 'building', 'recreation', 'other'] as const
export type CrossingKind = (typeof CROSSING_KINDS)[number]

export interface CrossingRecord extends RecordBase {
  recordType: 'crossing'
  circuit: string
  lineDistanceM: number
  kind: CrossingKind
  name: string | null
}

/** 'Patrolled, no exception' between two structures: sets coverage, never a class. */
export interface ExtentRecord extends RecordBase {
  recordType: 'extent'
  survey: string | null
  circuit: string
  /** Null: from the circuit's end. */
  structureFrom: string | null
  structureTo: string | null
  surveyedOn: string
  method: string
  result: string | null
  lineCurrentA: number | null
  ambientC: number | null
  windMS: number | null
}

export const LOAD_QUALITIES = ['measured', 'estimated', 'suspect', 'expected-peak', 'post-contingency'] as const
export type LoadQuality = (typeof LOAD_QUALITIES)[number]

/** What a section carried at a moment, or is expected to carry by what was planned then. */
export interface LoadRecord extends RecordBase {
  recordType: 'load'
  circuit: string
  /** Null: the main one, or the only one. */
  section: string | null
  takenAt: Date
  /** Per phase. */
  currentA: number
  /** Null: nobody said. The last two are no measurement: the planner's figures. */
  quality: LoadQuality | null
}

export type IntakeRecord =
  | ReadingRecord | LineRecord | StructureRecord | SpliceRecord | PhasingRecord | CrossingRecord | ExtentRecord | LoadRecord

/** What each kind of file can yield. */
export interface RecordsOfKind {
  lines: LineRecord | StructureRecord
  structures: StructureRecord
  splices: SpliceRecord
  readings: ReadingRecord
  phasing: PhasingRecord
  crossings: CrossingRecord
  extents: ExtentRecord
  loads: LoadRecord
}
