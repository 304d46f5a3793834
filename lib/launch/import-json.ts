import type { CaseError } from '@/lib/cases/problem'
import type { UndoReport } from '@/lib/cases/undo-import'
import type { ImportReport } from '@/lib/contract/contract'
import type { Result } from '@/lib/result/result'

/** What became of one file. */
export interface FileOutcome {
  /** As it was named. Null where it did not come to a file. */
  file: string | null
  dryRun: boolean
  /** Where it was imported to, in words without a password. */
  database?: string
  report?: ImportReport
  /** The same file was imported before: this is its report. */
  again?: boolean
  /** IANA zone for when somebody was told. */
  timeZone?: string
  /** Nobody said what the rows are. */
  guessed?: boolean
  /** Where its rejected rows were written. */
  rejectedFile?: string
  problem?: Pick<CaseError, 'message' | 'remedy'> & { code: string }
}

/** One file's outcome as the JSON of the command: the report beside what it does not say itself, or a problem in the words of RFC 9457. */
export function outcomeJson({ file, dryRun, database, report, again = false, rejectedFile, problem }: FileOutcome) {
  return {
    file, again, dry_run: dryRun, ...(database !== undefined && { database }), ...report, ...(rejectedFile !== undefined && { rejected_file: rejectedFile }),
    ...(problem && {
      problem: { type: `urn:spanledger:problem:${problem.code}`, title: 'Nothing was imported', code: problem.code, detail: problem.message, remedy: problem.remedy },
    }),
  }
}

/** What became of an import that was to be taken back: null where it was cancelled before it was done. */
export const undoJson = (importId: number, ended: Result<UndoReport | null, CaseError>, exitCode: number) => ({
  exit_code: exitCode, import_id: importId,
  ...(ended.ok ? { cancelled: ended.value === null, undo: ended.value && undoneJson(ended.value) } : {
    problem: {
      type: `urn:spanledger:problem:${ended.error.code}`, title: 'Nothing was undone', code: ended.error.code, detail: ended.error.message, remedy: ended.error.remedy,
    },
  }),
})

const undoneJson = ({ held, ...undone }: UndoReport) => ({
  ...undone, held: held.map((one) => ({ splice_id: one.spliceId, class: one.class, measured_class: one.measuredClass })),
})

/** Always one object: the outcome of one file, or all of them under `files`. */
export function commandJson(outcomes: readonly FileOutcome[], exitCode: number) {
  const [first] = outcomes
  return { exit_code: exitCode, ...(outcomes.length === 1 && first ? outcomeJson(first) : { files: outcomes.map(outcomeJson) }) }
}
