import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import { markCancelled } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'
import { inTransaction } from '@/lib/store/transaction'
import { outOfScope, type CaseError } from './problem'
import { undoImport, type UndoReport } from './undo-import'

/**
 * Takes an import back, however far it is: one that waits or runs is cancelled (null), one that is done is undone. Nothing of it stands
 * afterwards, and the same file can be imported again.
 */
export async function endImport(scope: Scope, importId: number, actor: string): Promise<Result<UndoReport | null, CaseError>> {
  if (scope.circuitIds) return outOfScope()
  const cancelled = await inTransaction(async (tx) => {
    if (!await markCancelled(scope, importId, tx)) return false
    await writeAudit(scope, { actor, action: 'import.cancelled', subject: { kind: 'import', id: importId } }, tx)
    return true
  })
  return cancelled ? ok(null) : undoImport(scope, importId, actor)
}
