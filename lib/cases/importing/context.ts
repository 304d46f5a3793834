import type { Policy } from '@/lib/condition'
import type { WaitingRow } from '@/lib/contract/waiting-row'
import type { SettingsJson } from '@/lib/contract/settings'
import type { ImportKind, Mapping, RecordsOfKind, RowAlarm } from '@/lib/intake'
import type { ChangeLog } from '@/lib/store/import-changes'
import type { ImportPhase } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'
import type { Tx } from '@/lib/store/transaction'
import type { ClassChanges } from '../class-changes'
import type { IssueLog } from './issue-log'

/** What the loader of each kind works with: one transaction, and where to say what happened. */
export interface ImportContext {
  scope: Scope
  tx: Tx
  importId: number
  /** The file's own name, and how it is read. */
  file: { name: string; mapping: Mapping }
  /** For rows that name no survey. */
  survey: string
  settings: SettingsJson
  policy: Policy
  nowMs: number
  issues: IssueLog
  /** In which the conductor's column was read; undefined where none was named. */
  conductorUnit: string | undefined
  changes: ChangeLog
  classChanges: ClassChanges
  unread: {
    /** Rows that were not read though their own numbers cannot wait. */
    alarms: RowAlarm[]
    /** Rows of our own files of rejected rows, by their row in this one: what they were. */
    origins: Map<number, { importId: number; row: number }>
  }
  /**
   * Rows, or splices while they are assessed, done of how many. Seen by those who wait; costs nothing when called often, and throws where
   * somebody has called the import off.
   */
  progress(phase: ImportPhase, done?: number, total?: number): void
}

/** What loading changed, for the report and for what follows from it. */
export interface Loaded {
  /** Rows that were held already, value for value. */
  alreadyHeld: number
  /** Readings stored before that rows of this file say again. */
  met: readonly number[]
  /** Rows that say the same as another row of the file, and count once with it. */
  repeated: number
  placed: number
  review: number
  /** Of those for review, the first rows. */
  waiting: readonly WaitingRow[]
  newSplices: number
  /** Their condition is to be assessed anew. */
  spliceIds: readonly number[]
  /** Their roll-up is to be brought up to date. */
  circuitIds: readonly number[]
}

export const NOTHING_LOADED: Loaded = { alreadyHeld: 0, met: [], repeated: 0, placed: 0, review: 0, waiting: [], newSplices: 0, spliceIds: [], circuitIds: [] }

/** Records in handfuls: waiting for each one alone costs more than reading it. */
export type Batches<T> = AsyncIterable<readonly T[]>

/** Brings the records of one kind into the store, within the context's transaction. */
export type Loader<Kind extends ImportKind> = (context: ImportContext, records: Batches<RecordsOfKind[Kind]>) => Promise<Loaded>

/** Records of kinds that need to be seen together, with their rows' text. */
export async function gather<T extends { rowNo: number; rawRow: string }>(
  batches: Batches<T>,
): Promise<{ records: T[]; rawOf: (row: number) => string | undefined }> {
  const all: T[] = []
  for await (const batch of batches) all.push(...batch)
  const raw = new Map(all.map((record) => [record.rowNo, record.rawRow]))
  return { records: all, rawOf: (row) => raw.get(row) }
}
