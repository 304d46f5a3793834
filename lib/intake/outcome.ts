import type { ByTable, ConductorDoubt, Policy, SpliceFacts } from '@/lib/condition'
import type { ReadingDraft } from './reading'
import type { RecordsOfKind } from './records'
import type { DateOrder, ImportKind, RawRow, RowIssue } from './types'

/** What normalising needs to know beside the row; nothing is looked up behind its back. */
export interface NormaliseContext {
  /** IANA zone for times without an offset, where the mapping names none. */
  timeZone: string
  /** Milliseconds since 1970 UTC: readings more than 10 minutes later lie in the future. */
  nowMs: number
  /** Hash of a text or of bytes: lower-case hexadecimal, at least 32 digits (`hash128` of this room, or SHA-256). */
  hash: (content: string | Uint8Array) => string
  decimalComma?: boolean
  /** How 03/04/2026 reads where neither mapping nor file tells; absent: month first, with a warning. */
  dateOrder?: DateOrder
  /** The utility's words for its phases, in any case: { red: 'A', yellow: 'B', blue: 'C' }. */
  phaseLetters?: Readonly<Record<string, string>>
  /** Edges by which the numbers of a rejected row are urgent; the defaults where absent. */
  policy?: Policy
  /** What is known of the fittings of a circuit or its section, for the numbers of a rejected row; nothing where absent. */
  factsOf?: (circuit: string, section: string | null) => SpliceFacts[]
  /** West, south, east, north of the network, degrees: tells swapped coordinates that are both in range. */
  networkBbox?: readonly [west: number, south: number, east: number, north: number]
}

/** A row whose own numbers are urgent or critical and are not read, alone or with all of it. */
export interface RowAlarm {
  row: number
  class: 'urgent' | 'critical'
  /** Null for broken strands. */
  ratio: number | null
  doubt?: ConductorDoubt
  byTable?: ByTable
  /** What the ratio rests on where a number is out of its bounds: the fault that it was not read for cannot make it less. */
  restsOn?: string
  /** Of a record that ran over several lines: which of them it is, in a sentence. */
  inLine?: string
  /** What the row says as far as it could be read. */
  says: ReadingDraft
  /** Sentences that say why it is not read. */
  why: string[]
}

/** Every row of a file ends in one of these; read and duplicate count as read, so read + rejected = rows. */
export type RowOutcome<Kind extends ImportKind = ImportKind> =
  | { state: 'read'; row: number; record: RecordsOfKind[Kind]; issues: RowIssue[]; alarm?: RowAlarm }
  /** Value for value the same as an earlier row of the file. */
  | { state: 'duplicate'; row: number; firstRow: number; issues: RowIssue[] }
  | { state: 'rejected'; row: number; raw: string; issues: RowIssue[]; alarm?: RowAlarm }

/** What was taken for granted of a whole file, and what to do where it is wrong; both in sentences. */
export interface FileNote {
  message: string
  remedy: string
  /** It follows what a person said of the file: told beside the others, and no warning. */
  isSaid?: true
}

/** A mapping made ready for one file. It remembers the file's ids, so one normaliser reads one file once. */
export interface Normaliser<Kind extends ImportKind = ImportKind> {
  /** Takes what a table's rows yield. Never throws. */
  row(raw: RawRow | RowIssue): RowOutcome<Kind>
  /** The line on which a row that was taken begins; undefined where the format has none. */
  lineOf(row: number): number | undefined
  /** Lets go of what it remembers of the rows, once the last was read. */
  forget(): void
  /** What was assumed for many rows, in sentences with counts; complete after the last row. */
  notes(): FileNote[]
}
