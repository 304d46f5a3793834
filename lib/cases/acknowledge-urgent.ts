import type { UrgentReading } from '@/lib/contract/urgent'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { acknowledgeNotice, listUrgent } from '@/lib/store/urgent'
import { noSuch, type CaseError } from './problem'

/** The control room was told of an urgent reading, or of one notice; the first who said so stays named. */
export async function acknowledgeUrgent(
  scope: Scope, which: { readingId: number } | { noticeId: number }, actor: string,
): Promise<Result<UrgentReading, CaseError>> {
  return inTransaction(async (tx) => {
    if (await acknowledgeNotice(scope, which, actor, tx) > 0) {
      const [told] = await listUrgent(scope, which, tx)
      const row = told?.not_read && { file: told.not_read.file_name, row: told.not_read.row }
      // A row that was not read has no reading to name.
      const subject = told && told.reading_id === null ? { kind: 'notice' as const, id: told.notice_id } : { kind: 'reading' as const, id: told?.reading_id ?? null }
      await writeAudit(scope, { actor, action: 'urgent.acknowledged', subject, detail: row ? { notice_id: told.notice_id, ...row } : {} }, tx)
      await raiseDataVersion(scope, tx)
    }
    const [notice] = await listUrgent(scope, which, tx)
    return notice ? ok(notice) : noSuch('urgent reading')
  })
}
