import type { ImportReport } from '@/lib/contract/contract'
import { FileRefusal, type ImportKind, type Mapping } from '@/lib/intake'
import { ok, type Result } from '@/lib/result/result'
import { importAsOfNow } from '@/lib/store/import-as-of-now'
import { failImport, insertImport, sameImport } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'
import { database } from '@/lib/store/transaction'
import { withFullStop } from '@/lib/units/full-stop'
import { ImportIdentity } from './import-identity'
import { openMapped, type OpenedFile, type OpenOptions, type Source } from './importing/open-mapped'
import { ImportCancelled } from './importing/cancelled'
import { performImport } from './importing/perform'
import type { ToldProgress } from './importing/progress'
import { outOfScope, refuse, refuseFile, type CaseError } from './problem'

export interface StreamToImport {
  kind: ImportKind
  survey?: string | null
  mapping?: Mapping | null
  dryRun?: boolean
  actor: string
  onProgress?: ToldProgress
}

export interface Imported {
  report: ImportReport
  /** True where the same was imported before: this is its report. */
  again: boolean
}

/** Imports a file of any size straight from where it lies, here and now. The file is read twice: once to know it, once to take it. */
export async function importFromStream(scope: Scope, source: Source, task: StreamToImport): Promise<Result<Imported, CaseError>> {
  const identity = new ImportIdentity()
  for await (const piece of source.open()) identity.add(piece)
  if (identity.sizeBytes === 0) return refuse('empty', `${source.fileName} is empty.`, 'Choose a file with rows.')
  return importNow(scope, source.fileName, identity, task, (options) => openMapped(scope, source, options, database()))
}

/** The same for what `open` yields, known by `identity`. */
export async function importNow(
  scope: Scope, fileName: string, identity: ImportIdentity, task: StreamToImport, open: (options: OpenOptions) => Promise<OpenedFile>,
): Promise<Result<Imported, CaseError>> {
  const { kind, actor, onProgress } = task
  const surveyName = task.survey?.trim() || null
  const mapping = task.mapping ?? null
  const dryRun = task.dryRun ?? false
  const sha256 = identity.end(kind, surveyName, mapping)
  const same = dryRun ? undefined : await sameImport(scope, sha256, 0, 'done')
  const earlier = same === undefined ? undefined : await importAsOfNow(scope, same)
  if (earlier?.report) return ok({ report: earlier.report, again: true })
  const known = { sha256, sizeBytes: identity.sizeBytes }
  const importId = await insertImport(scope, { kind, fileName, surveyName, mapping, dryRun, actor, known })
  if (importId === undefined) return outOfScope()
  try {
    const report = await performImport(scope, { importId, kind, survey: surveyName, fileName, mapping, dryRun, actor, sha256, onProgress }, open)
    return ok({ report, again: false })
  } catch (e) {
    if (e instanceof ImportCancelled) return refuse('wrong-state', e.message, e.remedy)
    const refused = e instanceof FileRefusal
    await failImport(scope, importId, refused ? `${e.message} ${e.remedy}` : withFullStop(`It was broken off: ${e instanceof Error ? e.message : String(e)}`))
    if (refused) return refuseFile(e)
    throw e
  }
}
