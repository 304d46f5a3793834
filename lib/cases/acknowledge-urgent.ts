import type { UrgentReading } from '@/lib/contract/contract'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { acknowledgeNotice, listUrgent } from '@/lib/store/urgent'
import { noSuch, type CaseError } from './problem'

/** The control room was told of an urgent reading; the first who said so stays named. */
export async function acknowledgeUrgent(scope: Scope, readingId: number, actor: string): Promise<Result<UrgentReading, CaseError>> {
  return inTransaction(async (tx) => {
    if (await acknowledgeNotice(scope, readingId, actor, tx) > 0) {
      await writeAudit(scope, { actor, action: 'urgent.acknowledged', subject: { kind: 'reading', id: readingId } }, tx)
      await raiseDataVersion(scope, tx)
    }
    const [notice] = await listUrgent(scope, { readingId }, tx)
    return notice ? ok(notice) : noSuch('urgent reading')
  })
}
