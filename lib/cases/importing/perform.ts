import type { ImportReport } from '@/lib/contract/contract'
import { FileRefusal, remediesOfMost, type ImportKind, type IntakeRecord, type Mapping, type RawRow, type RowIssue } from '@/lib/intake'
import { writeAudit } from '@/lib/store/audit'
import { rollUpCircuits } from '@/lib/store/health'
import { ChangeLog } from '@/lib/store/import-changes'
import { dropChunks } from '@/lib/store/import-file'
import { insertIssues } from '@/lib/store/import-issues'
import { failBroken, finishImport, getImport, sameImport } from '@/lib/store/imports'
import { holdImportLock } from '@/lib/store/import-lock'
import { rememberMapping } from '@/lib/store/mapping-profiles'
import { currentPolicy } from '@/lib/store/policies'
import type { Scope } from '@/lib/store/scope'
import { rollUpRisk } from '@/lib/store/risk'
import { getSettings } from '@/lib/store/settings'
import { raiseDataVersion, storeState } from '@/lib/store/state'
import { database, inTransaction, savepoint } from '@/lib/store/transaction'
import { listUrgent, untoldOf } from '@/lib/store/urgent'
import { ClassChanges } from '../class-changes'
import { noticeUnreadRows } from '../readings/unread-rows'
import { reassessSplices } from '../reassess-splices'
import { surveyOfFile } from '../survey-of-file'
import { ImportCancelled } from './cancelled'
import type { ImportContext, Loaded } from './context'
import { ignoredColumns, noRows, unitOfField } from './file-facts'
import { IssueLog } from './issue-log'
import { load } from './loaders'
import type { OpenedFile, OpenOptions } from './open-mapped'
import { Progress, type ToldProgress } from './progress'

export interface ImportTask {
  importId: number
  kind: ImportKind
  /** For rows that name no survey; null: that of the file. */
  survey: string | null
  fileName: string
  /** Null: guessed. */
  mapping: Mapping | null
  dryRun: boolean
  actor: string
  /** Of the file with kind, survey and mapping. */
  sha256: string
  /** Rows, or splices while they are assessed. */
  onProgress?: ToldProgress
}

/**
 * The whole of an import in one transaction: parse, normalise, place, write, assess, coverage, roll-up, notices, audit. Either all
 * of it stands, with its report, or nothing. A dry run does the same and keeps the report only. Imports wait for one another.
 * @throws FileRefusal, ImportCancelled, and whatever the database refuses
 */
export async function performImport(
  scope: Scope, task: ImportTask, open: (options: OpenOptions) => Promise<OpenedFile>,
): Promise<ImportReport> {
  const nowMs = Date.now()
  const settings = await getSettings(scope)
  const policy = await currentPolicy(scope)
  const progress = new Progress(scope, task.importId, task.onProgress)
  try {
    return await inTransaction(async (tx) => {
      await holdImportLock(scope, tx)
      await failBroken(scope, task.importId, database())
      await progress.begin()
      await mustBeFirst(scope, task)
      const { network_bbox: networkBbox } = await storeState(scope, database())
      const opened = await open({ kind: task.kind, mapping: task.mapping, settings, networkBbox, nowMs })
      if (opened.first.length === 0) throw noRows()
      const issues = new IssueLog(scope, task.importId, (row) => opened.normaliser.lineOf(row), settings.unit_system, task.dryRun)
      const counts = { rows: 0, repeated: 0 }
      const context: ImportContext = {
        scope, tx, importId: task.importId, file: { name: task.fileName, mapping: opened.mapping }, survey: opened.mapping.survey ?? task.survey ?? opened.survey ?? surveyOfFile(task.fileName), settings, policy, nowMs, issues,
        conductorUnit: unitOfField(opened.mapping, 'conductor_uohm'),
        changes: new ChangeLog(), classChanges: new ClassChanges(), unread: { alarms: [], origins: new Map() },
        progress: (phase, done = 0, total) => progress.tell(phase === 'assessing'
          ? { phase, rowsDone: counts.rows, rowsTotal: counts.rows, splicesDone: done, splicesTotal: total }
          : { phase, rowsDone: done, rowsTotal: phase === 'reading' ? undefined : counts.rows }),
      }
      const work = () => loadAll(context, task, opened, counts)
      const report = task.dryRun ? await savepoint(tx, work, () => false) : await work()
      if (task.dryRun) await insertIssues(scope, tx, task.importId, issues.all)
      await progress.end()
      const settled = await finishImport(scope, task.importId, { report, mapping: opened.mapping, header: opened.columns, delimiter: opened.delimiter }, tx)
      if (!settled) {
        if ((await getImport(scope, task.importId))?.state === 'cancelled') throw new ImportCancelled(task.importId)
        throw new Error(`Import ${task.importId} was settled by another process meanwhile; nothing of this run was kept.`)
      }
      await dropChunks(scope, task.importId, tx)
      return report
    })
  } finally {
    await progress.end()
  }
}

/** Of two senders of one file the second comes here once the first is done. */
async function mustBeFirst(scope: Scope, { dryRun, sha256, importId }: ImportTask): Promise<void> {
  const same = dryRun ? undefined : await sameImport(scope, sha256, importId, 'done')
  if (same !== undefined) throw new FileRefusal('same-file', `The same file was imported meanwhile as import ${same}.`, 'Nothing needs to be done.')
}

interface RowCounts { rows: number; repeated: number }

async function loadAll(context: ImportContext, task: ImportTask, opened: OpenedFile, counts: RowCounts): Promise<ImportReport> {
  const { scope, tx, importId, issues } = context
  const loaded = await load(task.kind, context, records(context, opened, counts))
  if (task.kind !== 'readings' && context.unread.alarms.length > 0) await noticeUnreadRows(context)
  if (loaded.spliceIds.length > 0) {
    context.progress('assessing', 0, loaded.spliceIds.length)
    await reassessSplices(scope, tx, loaded.spliceIds, {
      policy: context.policy, asOfMs: context.nowMs, cause: 'import', importId, changes: context.classChanges,
      onProgress: (done, total) => context.progress('assessing', done, total),
    })
  }
  for (const ofMost of remediesOfMost((code, field) => issues.countOf(code, field), counts.rows, opened.mapping)) await issues.setRemedy(tx, ofMost)
  for (const { isSaid, ...note } of opened.normaliser.notes()) if (!isSaid) issues.add({ severity: 'warning', row: 0, code: 'assumed', ...note })
  await issues.flush(tx, 0)
  await context.changes.write(scope, importId, tx)
  await rollUpCircuits(scope, loaded.circuitIds, context.policy, tx)
  if (task.kind !== 'readings') await rollUpRisk(scope, loaded.circuitIds, tx)
  if (task.mapping) await rememberMapping(scope, opened.headerHash, importId, opened.toRemember, tx)
  const report = await reportOf(context, task, opened, loaded, counts)
  await raiseDataVersion(scope, tx)
  const { urgent: _u, met_notices: _m, issues: _i, ignored_columns: _c, class_changes: _k, waiting: _w, ...summary } = report
  await writeAudit(scope, { actor: task.actor, action: 'import.committed', subject: { kind: 'import', id: importId }, detail: summary }, tx)
  return report
}

const HANDFUL = 64

async function* records(context: ImportContext, opened: OpenedFile, counts: RowCounts): AsyncGenerator<IntakeRecord[]> {
  let batch: IntakeRecord[] = []
  const take = (raw: RawRow | RowIssue): void => {
    const outcome = opened.normaliser.row(raw)
    counts.rows++
    if ('origin' in raw && raw.origin) context.unread.origins.set(outcome.row, raw.origin)
    if (outcome.state !== 'duplicate' && outcome.alarm) context.unread.alarms.push(outcome.alarm)
    if (outcome.issues.length > 0) {
      const text = outcome.state === 'rejected' ? outcome.raw : 'raw' in raw ? raw.raw : undefined
      context.issues.addAll(outcome.issues, () => text)
    }
    if (outcome.state === 'duplicate') counts.repeated++
    else if (outcome.state === 'read') batch.push(outcome.record)
  }
  try {
    opened.first.forEach(take)
    for (;;) {
      let raw = opened.rest.atHand?.()
      if (!raw) {
        const next = await opened.rest.next()
        if (next.done) break
        raw = next.value
      }
      take(raw)
      if (batch.length < HANDFUL) continue
      yield batch
      batch = []
    }
    yield batch
  } finally {
    opened.normaliser.forget()
    await opened.rest.return?.()
  }
}

async function reportOf(
  context: ImportContext, task: ImportTask, opened: OpenedFile, loaded: Loaded, counts: RowCounts,
): Promise<ImportReport> {
  const { scope, tx, importId, issues } = context
  const rejected = issues.rejectedRows.size
  const met = await untoldOf(scope, loaded.met, tx)
  return {
    import_id: importId, kind: task.kind, rows: counts.rows, read: counts.rows - rejected, rejected, already_held: loaded.alreadyHeld, repeated: loaded.repeated + counts.repeated,
    placed: loaded.placed, review: loaded.review, ...(task.kind === 'readings' && { waiting: [...loaded.waiting] }), new_splices: loaded.newSplices,
    urgent: await listUrgent(scope, { importId, met }, tx), ...(met.length > 0 && { met_notices: met }),
    notes: [
      ...opened.asBefore === null ? [] : [opened.asBefore], ...opened.notes,
      ...opened.normaliser.notes().filter(({ isSaid }) => isSaid).map(({ message }) => message),
    ],
    ignored_columns: ignoredColumns(task.kind, opened), class_changes: await context.classChanges.json(scope, tx),
    issues: issues.first().map((i) => ({
      severity: i.severity, row: i.row, line: i.line ?? null, field: i.field ?? null, value: i.value ?? null, code: i.code, message: i.message, remedy: i.remedy,
    })),
    issue_count: issues.count,
  }
}


