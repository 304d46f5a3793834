import type { CellReport } from '../cells/cell-report'
import type { NormaliseContext } from '../outcome'
import type {
  CrossingRecord, ExtentRecord, LineRecord, LoadRecord, PhasingRecord, SpliceRecord, StructureRecord,
} from '../records'
import type { ReadingDraft } from '../reading'
import type { ImportKind, RawRow } from '../types'
import type { Assumptions } from './assumptions'
import { settlePosition } from './position'
import { readingDraft } from './reading'

/** A record on the way: what is required may still be missing, and then the row has been rejected for it. */
type Draft<R, Required extends keyof R> = Omit<R, Required> & { [K in Required]: R[K] | null }

export type LineDraft = Draft<LineRecord, 'circuit'>
export type StructureDraft = Draft<StructureRecord, 'structure'>
export type SpliceDraft = Draft<SpliceRecord, 'circuit' | 'kind'>
export type PhasingDraft = Draft<PhasingRecord, 'circuit' | 'structureFrom' | 'structureTo' | 'position' | 'phase'>
export type CrossingDraft = Draft<CrossingRecord, 'circuit' | 'lineDistanceM' | 'kind'>
export type ExtentDraft = Draft<ExtentRecord, 'circuit' | 'surveyedOn' | 'method'>
export type LoadDraft = Draft<LoadRecord, 'circuit' | 'takenAt' | 'currentA'>

const lineDraft = (rowNo: number, rawRow: string): LineDraft => ({
  recordType: 'line', rowNo, rawRow, circuit: null, section: null, lineName: null, from: null, to: null, voltageKv: null,
  conductor: null, subconductors: null, ratingA: null, ratingEmergencyA: null, maxOperatingC: null, region: null, radial: null, mw: null,
  elevationM: null, lateralOffsetM: null, pieces: [],
})

const structureDraft = (rowNo: number, rawRow: string): StructureDraft => ({
  recordType: 'structure', rowNo, rawRow, circuit: null, section: null, structure: null, lon: null, lat: null, lineDistanceM: null,
  structureType: null, aliases: [],
})

const spliceDraft = (rowNo: number, rawRow: string): SpliceDraft => ({
  recordType: 'splice', rowNo, rawRow, spliceId: null, circuit: null, section: null, structureBack: null, structureAhead: null,
  lineDistanceM: null, phase: null, position: null, circuitSide: null, subconductor: null, kind: null, fittingType: null,
  barrelOdMm: null, barrelLengthMm: null, installedOn: null, batch: null, removedOn: null, successorOf: null, lon: null, lat: null,
})

const phasingDraft = (rowNo: number, rawRow: string): PhasingDraft =>
  ({ recordType: 'phasing', rowNo, rawRow, circuit: null, structureFrom: null, structureTo: null, position: null, phase: null })

const crossingDraft = (rowNo: number, rawRow: string): CrossingDraft =>
  ({ recordType: 'crossing', rowNo, rawRow, circuit: null, lineDistanceM: null, kind: null, name: null })

const extentDraft = (rowNo: number, rawRow: string): ExtentDraft => ({
  recordType: 'extent', rowNo, rawRow, survey: null, circuit: null, structureFrom: null, structureTo: null, surveyedOn: null, method: null,
  result: null, lineCurrentA: null, ambientC: null, windMS: null,
})

const loadDraft = (rowNo: number, rawRow: string): LoadDraft =>
  ({ recordType: 'load', rowNo, rawRow, circuit: null, section: null, takenAt: null, currentA: null, quality: null })

export function settleStructure(draft: StructureDraft, report: CellReport, context: NormaliseContext): void {
  settlePosition(draft, report, context.networkBbox)
  if (report.rejected || draft.lon !== null || (draft.circuit !== null && draft.lineDistanceM !== null)) return
  report.about(
    'error', 'lon', 'structure-nowhere', undefined,
    'the structure has neither a position nor a circuit with a line distance, so it stands nowhere.',
    'Give lon and lat, or circuit and line_distance_m.',
  )
}

export function settleSplice(draft: SpliceDraft, report: CellReport, assumptions: Assumptions, context: NormaliseContext): void {
  settlePosition(draft, report, context.networkBbox)
  if (draft.kind === null) {
    draft.kind = 'full-tension splice'
    if (!report.speaksOf('kind')) assumptions.add('splice-kind', draft.rowNo)
  }
  if (draft.installedOn !== null && draft.removedOn !== null && draft.removedOn < draft.installedOn) {
    report.about(
      'warning', 'removed_on', 'removed-before-installed', draft.removedOn,
      `'${draft.removedOn}' lies before the installation on ${draft.installedOn}.`, 'Check both dates.'
    )
  }
  if (
    report.rejected || draft.structureBack !== null || draft.structureAhead !== null || draft.lineDistanceM !== null || draft.lon !== null
  ) return
  report.about(
    'error', 'structure_back', 'splice-nowhere', undefined,
    'the splice has no structure, no line distance and no position, so it lies nowhere.',
    'Give structure_back and structure_ahead, or line_distance_m.',
  )
}

export type RecordDraft =
  | ReadingDraft | LineDraft | StructureDraft | SpliceDraft | PhasingDraft | CrossingDraft | ExtentDraft | LoadDraft

/** A record of the kind with nothing known; a point among lines names a structure, which the caller decides. */
export function newDraft(kind: ImportKind, { row, raw }: RawRow): RecordDraft {
  switch (kind) {
    case 'lines': return lineDraft(row, raw)
    case 'structures': return structureDraft(row, raw)
    case 'splices': return spliceDraft(row, raw)
    case 'readings': return readingDraft(row, raw)
    case 'phasing': return phasingDraft(row, raw)
    case 'crossings': return crossingDraft(row, raw)
    case 'extents': return extentDraft(row, raw)
    case 'loads': return loadDraft(row, raw)
  }
}
