import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import { rollUpCircuits } from '@/lib/store/health'
import { holdImportLock } from '@/lib/store/import-lock'
import { importToRun, markUndone } from '@/lib/store/imports'
import { currentPolicy } from '@/lib/store/policies'
import { rollUpRisk } from '@/lib/store/risk'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { noSuch, outOfScope, refuse, type CaseError } from './problem'
import { reassessSplices, type HeldSplice } from './reassess-splices'
import { undoNetwork } from './undo/undo-network'
import { undoReadings } from './undo/undo-readings'

export interface UndoReport {
  import_id: number
  readings_withdrawn: number
  splices_removed: number
  /** Of those: what their class was. A removed splice is shown no more, so this is said. */
  removed_urgent: number
  removed_critical: number
  /** Splices whose class is held above what the evidence says now. */
  held: HeldSplice[]
}

/** Takes an import back as one act. Its readings stay stored, withdrawn; nothing urgent or critical that stays in the line is lowered by it. */
export async function undoImport(scope: Scope, importId: number, actor: string): Promise<Result<UndoReport, CaseError>> {
  if (scope.circuitIds) return outOfScope()
  return inTransaction(async (tx) => {
    await holdImportLock(scope, tx)
    const row = await importToRun(scope, importId, tx)
    if (!row) return noSuch('import')
    if (row.dry_run) return refuse('wrong-state', 'A dry run stored nothing.', 'Nothing needs to be done.')
    if (row.state === 'undone') return refuse('wrong-state', 'This import was undone before.', 'Nothing needs to be done; the same file can be imported again.')
    if (row.state !== 'done') return refuse('wrong-state', 'This import stored nothing: it failed or was cancelled.', 'Nothing needs to be done; the same file can be imported again.')
    const undone = row.kind === 'readings' ? ok(await undoReadings(scope, tx, importId)) : await undoNetwork(scope, tx, importId)
    if (!undone.ok) throw new Refused(undone)
    const { readings, removedSplices, spliceIds, circuitIds } = undone.value
    const policy = await currentPolicy(scope, tx)
    const held = await reassessSplices(scope, tx, spliceIds, { policy, asOfMs: Date.now(), cause: 'undo', importId })
    await rollUpCircuits(scope, circuitIds, policy, tx)
    if (row.kind !== 'readings') await rollUpRisk(scope, circuitIds, tx)
    if (!await markUndone(scope, importId, tx)) throw new Error(`Import ${importId} was settled by another process meanwhile.`)
    const count = (found: string) => removedSplices.filter((splice) => splice.class === found).length
    const report: UndoReport = {
      import_id: importId, readings_withdrawn: readings, splices_removed: removedSplices.length, removed_urgent: count('urgent'),
      removed_critical: count('critical'), held,
    }
    await writeAudit(scope, { actor, action: 'import.undone', subject: { kind: 'import', id: importId }, detail: { ...report, removed: removedSplices } }, tx)
    await raiseDataVersion(scope, tx)
    return ok(report)
  }).catch((e: unknown) => {
    if (e instanceof Refused) return e.refusal
    throw e
  })
}

/** Leaves the transaction so that it is rolled back, with what to say. */
class Refused extends Error {
  constructor(readonly refusal: Result<never, CaseError>) {
    super('refused')
  }
}
