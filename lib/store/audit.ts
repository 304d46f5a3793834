import type { Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

export type AuditAction =
  | 'import.committed' | 'import.undone' | 'import.cancelled' | 'placement.accepted' | 'placement.dragged' | 'placement.rejected' | 'placement.taken-back' | 'review-act.made' | 'review-act.undone'
  | 'limit.proposed' | 'limit.agreed' | 'limit.accepted' | 'limit.lifted'
  | 'trip.noted'
  | 'splice.taken' | 'view.saved' | 'view.deleted' | 'call.recorded' | 'call.struck' | 'look.recorded' | 'urgent.acknowledged' | 'urgent.taken-back' | 'class.cleared' | 'policy.changed' | 'settings.changed' | 'splices.reassessed'

export interface AuditEntry {
  actor: string
  action: AuditAction
  subject: { kind: 'import' | 'reading' | 'notice' | 'splice' | 'circuit' | 'policy' | 'settings' | 'network' | 'view' | 'review-act'; id: number | null }
  detail?: Record<string, unknown>
}

/** Adds one line to the trail, within the transaction of what it tells. */
export async function writeAudit(_scope: Scope, { actor, action, subject, detail = {} }: AuditEntry, db: Db): Promise<void> {
  await db.run(sql`
    INSERT INTO audit_entry (actor, action, subject_kind, subject_id, detail)
    VALUES (${actor}, ${action}, ${subject.kind}, ${subject.id}, ${JSON.stringify(detail)}::jsonb)`)
}
