import type { ImportReport } from '@/lib/contract/contract'
import { FileRefusal } from '@/lib/intake'
import { ok, type Result } from '@/lib/result/result'
import { readChunks } from '@/lib/store/import-file'
import { failImport, importToRun } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'
import { database } from '@/lib/store/transaction'
import { ImportCancelled } from './importing/cancelled'
import { openMapped } from './importing/open-mapped'
import { performImport } from './importing/perform'
import { noSuch, refuse, refuseFile, type CaseError } from './problem'

/** Runs a queued import from its stored file. A file that cannot be read at all ends it as failed, by name; nothing of it is kept. */
export async function runImport(scope: Scope, importId: number): Promise<Result<ImportReport, CaseError>> {
  const row = await importToRun(scope, importId, database())
  if (!row) return noSuch('import')
  if (row.state !== 'queued' && row.state !== 'running') return refuse('wrong-state', `Import ${importId} is ${row.state}.`, 'Nothing needs to be done.')
  const source = { fileName: row.file_name, open: () => readChunks(scope, importId) }
  const task = {
    importId, kind: row.kind, survey: row.survey_name, fileName: row.file_name, mapping: row.mapping, dryRun: row.dry_run, actor: row.actor,
    sha256: row.sha256,
  }
  try {
    return ok(await performImport(scope, task, (options) => openMapped(scope, source, options, database())))
  } catch (e) {
    if (e instanceof ImportCancelled) return refuse('wrong-state', e.message, e.remedy)
    if (!(e instanceof FileRefusal)) throw e
    await failImport(scope, importId, `${e.message} ${e.remedy}`)
    return refuseFile(e)
  }
}
