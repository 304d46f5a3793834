import type { ToldBody, UrgentReading } from '@/lib/contract/urgent'
import { err, ok, type Result } from '@/lib/result/result'
import { writeAudit, type AuditAction } from '@/lib/store/audit'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction, type Tx } from '@/lib/store/transaction'
import { acknowledgeNotice, listUrgent, unacknowledgeNotice } from '@/lib/store/urgent'
import { noSuch, type CaseError } from './problem'

/** A notice by its own id, or whatever waits of a reading. */
export type Which = { readingId: number } | { noticeId: number }

/** How long a slip of the finger may be taken back. Later the log stands, and another call is a call of its own. */
export const TAKE_BACK_SECONDS = 60

/** Clocks differ by this much at most: a call is never noted before it is made. */
const AHEAD_MS = 5 * 60_000

/** The control room was told of an urgent reading, or of one notice; the first who said so stays named. */
export async function acknowledgeUrgent(
  scope: Scope, which: Which, actor: string, { told_to: toldTo, told_at: toldAt }: ToldBody = {},
): Promise<Result<UrgentReading, CaseError>> {
  if (toldAt !== undefined && Date.parse(toldAt) > Date.now() + AHEAD_MS) {
    return err({ code: 'invalid', message: `told_at is ${toldAt}, which is still to come.`, remedy: 'Give the time at which the control room was told, or leave it away: it is then now.' })
  }
  return inTransaction(async (tx) => {
    if (await acknowledgeNotice(scope, which, { actor, toldTo, toldAt }, tx) > 0) await note(scope, which, actor, 'urgent.acknowledged', tx)
    const [notice] = await listUrgent(scope, which, tx)
    return notice ? ok(notice) : noSuch('urgent reading')
  })
}

/** Within a minute what was noted is taken back, and the notice waits again. */
export async function takeBackTold(scope: Scope, which: Which, actor: string): Promise<Result<UrgentReading, CaseError>> {
  return inTransaction(async (tx) => {
    const again = await unacknowledgeNotice(scope, which, TAKE_BACK_SECONDS, tx)
    if (again > 0) await note(scope, which, actor, 'urgent.taken-back', tx)
    const [notice] = await listUrgent(scope, which, tx)
    if (!notice) return noSuch('urgent reading')
    if (again > 0) return ok(notice)
    return err({
      code: 'nothing-to-take-back', message: 'Nothing was noted of this within the last minute.', remedy: 'What was noted stays in the log. Call the control room again where it is needed.',
    })
  })
}

async function note(scope: Scope, which: Which, actor: string, action: AuditAction, tx: Tx): Promise<void> {
  const [told] = await listUrgent(scope, which, tx)
  const row = told?.not_read ? { file: told.not_read.file_name, row: told.not_read.row } : {}
  // A row that was not read has no reading to name.
  const ofRow = told !== undefined && told.reading_id === null
  const subject = ofRow ? { kind: 'notice' as const, id: told.notice_id } : { kind: 'reading' as const, id: told?.reading_id ?? null }
  const call = told?.told_to ? { told_to: told.told_to, told_at: told.told_at } : {}
  await writeAudit(scope, { actor, action, subject, detail: { ...told?.not_read ? { notice_id: told.notice_id } : {}, ...row, ...call } }, tx)
  await raiseDataVersion(scope, tx)
}
