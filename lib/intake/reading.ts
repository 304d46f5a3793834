import type { Finding } from '@/lib/condition/types'

export const READING_KINDS = ['resistance', 'infrared', 'visual'] as const
export type ReadingKind = (typeof READING_KINDS)[number]

export const PLATFORMS = ['ground', 'bucket', 'ladder', 'line_platform', 'line_robot', 'uncrewed', 'helicopter'] as const
export type Platform = (typeof PLATFORMS)[number]

/** What the normalised fields say apart from where they stood in the file and under which key they are known. */
export interface ReadingValues {
  kind: ReadingKind
  takenAt: Date | null
  /** Degrees, WGS84. Null where the file gives none, or (0, 0). */
  lon: number | null
  lat: number | null
  /** 68 % radius, metres, as the file gives it. */
  gnssAccuracyM: number | null
  positionOf: 'target' | 'platform'
  platform: Platform | null
  circuitLabel: string | null
  sectionLabel: string | null
  structureBack: string | null
  structureAhead: string | null
  /** Ahead of structureBack, 0 … 5000 m. */
  offsetFromStructureM: number | null
  /** 0 … 1 of the span, from structureBack. */
  spanFraction: number | null
  /** A, B, C; null: not known. */
  phase: string | null
  /** top, middle, bottom, left, right, centre; looking ahead. */
  position: string | null
  circuitSide: string | null
  subconductor: string | null
  spliceLabel: string | null
  /** 0.5 … 50,000 µΩ over the electrode span; side A faces structureBack. */
  sideAUohm: number | null
  sideBUohm: number | null
  conductorUohm: number | null
  conductorBUohm: number | null
  /** 0.05 … 4 m. */
  electrodeSpanM: number | null
  conductorSpanM: number | null
  barrelElectrodeM: number | null
  repeatNo: number | null
  testCurrent: 'live-ac' | 'dead-dc' | null
  /** Per phase. */
  lineCurrentA: number | null
  current30minA: number | null
  spliceTempC: number | null
  conductorTempC: number | null
  referenceKind: 'own-conductor' | 'same-fitting' | 'air' | null
  ambientC: number | null
  windMS: number | null
  sun: 'none' | 'diffuse' | 'direct' | null
  rain1h: boolean | null
  emissivity: number | null
  reflectedC: number | null
  distanceM: number | null
  viewAngleDeg: number | null
  ifovMrad: number | null
  band: 'lw' | 'mw' | null
  findings: Finding[]
  afterRepair: boolean
  crew: string | null
  instrument: string | null
  photo: string | null
  note: string | null
}

/** One row of evidence, normalised: the fields of the store's reading without its server-issued ids. Null means not known. */
export interface ReadingRecord extends ReadingValues {
  recordType: 'reading'
  /** 1 = first data row. */
  rowNo: number
  /** Name of the survey; null: the import's. */
  survey: string | null
  /** reading_id, else the content hash: unique within its survey. */
  readingKey: string
  /** Of the normalised values: tells 'the same reading again' from 'same id, other values'. */
  contentHash: string
  /** Standard deviation per axis, metres; null without a position. */
  sigmaM: number | null
  /** What was typed for the conductor where it cannot be a reading and no other one was taken: the sides are kept, the ratio is provisional. */
  conductorUnusable: string | null
  /** The record as it stood in the file. */
  rawRow: string
}

/** A row on its way to become a reading. readingKey holds its own reading_id, or nothing yet. */
export type ReadingDraft = Omit<ReadingRecord, 'kind' | 'positionOf'> & {
  kind: ReadingKind | null; positionOf: 'target' | 'platform' | null,
}

/** A 68 % radius is this many standard deviations per axis: sqrt(-2 ln(1 - 0.6827)) = 1.515. */
export const RADIUS_68_PER_SIGMA = 1.515

/** Standard deviation per axis where the file gives no accuracy, metres. Common practice, no published source. */
export const SIGMA_BY_PLATFORM_M: Readonly<Record<Platform, number>> = {
  ground: 8, bucket: 5, ladder: 5, line_platform: 5, line_robot: 5, uncrewed: 5, helicopter: 15,
}

/** Nobody said from where: taken as a patrol on the ground. */
export const SIGMA_UNKNOWN_PLATFORM_M = 8

/** Standard deviation per axis of a reading's position, metres. A declared radius of zero is no radius. */
export function positionSigmaM(gnssAccuracyM: number | null, platform: Platform | null): number {
  if (gnssAccuracyM !== null && gnssAccuracyM > 0) return gnssAccuracyM / RADIUS_68_PER_SIGMA
  return platform ? SIGMA_BY_PLATFORM_M[platform] : SIGMA_UNKNOWN_PLATFORM_M
}
