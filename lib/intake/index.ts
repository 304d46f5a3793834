/** The intake's public face: bytes to rows, columns to fields, rows to records or named issues. */
export {
  FileRefusal, IMPORT_KINDS,
  type ColumnMapping, type DateOrder, type Format, type ImportKind, type Mapping, type RawRow, type RowIssue, type RowIterator, type Table,
} from './types'
export type { FileNote, NormaliseContext, Normaliser, RowAlarm, RowOutcome } from './outcome'
export {
  CROSSING_KINDS,
  type CrossingKind, type CrossingRecord, type ExtentRecord, type LoadRecord, type IntakeRecord, type LineRecord, type PhasingRecord, type RecordsOfKind,
  type SpliceRecord, type StructureRecord,
} from './records'
export {
  PLATFORMS, READING_KINDS, RADIUS_68_PER_SIGMA, SIGMA_BY_PLATFORM_M, SIGMA_UNKNOWN_PLATFORM_M, positionSigmaM,
  type Platform, type ReadingDraft, type ReadingKind, type ReadingRecord, type ReadingValues,
} from './reading'
export type { Field, FieldType, KindTable } from './kinds/field'
export { KINDS, findField, templateFields } from './kinds/kinds'
export { FORMATS } from './formats/index'
export { tableOfObjects } from './formats/json-objects'
export { openFile } from './open-file'
export { MAX_COLUMNS } from './guards/columns'
export { guessMapping, hasSplice } from './mapping/guess'
export { kindDoubt } from './mapping/measured'
export { withChosenFields, type FieldChoice } from './mapping/choose-fields'
export { lackingFields } from './mapping/lacking'
export { withSaid, type Said } from './mapping/said'
export { withMarksByColumn } from './mapping/sample'
export { headerHash } from './mapping/header-hash'
export { findDateOrder, needsDateScan } from './mapping/date-order'
export { mappingProblems } from './normalise/columns'
export { compileMapping, normaliseRow } from './normalise/compile'
export { urgentUnread } from './normalise/unread-ohms'
export { hash128 } from './hash'
export { csvLine } from './report/guard-cell'
export { rejectedCsv, rejectedName } from './report/rejected-csv'
export { describeKind, templateOf, type FieldDescription, type KindDescription } from './report/template'
export { alarmIssue, alarmOf, REJECTED_BUT_URGENT } from './normalise/alarm'
export { KNOWN_IN_OTHER_SURVEY } from './report/codes'
export { remediesOfMost, remedyOf } from './report/most-rows'
