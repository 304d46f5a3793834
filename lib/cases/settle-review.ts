import type { ReviewItem } from '@/lib/contract/contract'
import type { PlacementDecision } from '@/lib/contract/intake'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit, type AuditAction } from '@/lib/store/audit'
import { recoverSpans } from '@/lib/store/coverage'
import { rollUpCircuits } from '@/lib/store/health'
import { earlierPlacement, lockPlacement, supersedePlacement, type CurrentPlacement, type NewPlacement } from '@/lib/store/placements'
import { currentPolicy } from '@/lib/store/policies'
import { getReviewItem, readingSays } from '@/lib/store/readings'
import type { Scope } from '@/lib/store/scope'
import { spanAt } from '@/lib/store/spans'
import { removeUnsupportedSplices } from '@/lib/store/splice-writes'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction, type Tx } from '@/lib/store/transaction'
import { listUrgent, moveNotice } from '@/lib/store/urgent'
import { noSuch, refuse, type CaseError } from './problem'
import { noticeCircuits } from './readings/notice-circuits'
import { reassessSplices } from './reassess-splices'
import { decide } from './review/decide'
import { makeSplice } from './review/make-splice'

const ACTIONS: Record<PlacementDecision['action'], AuditAction> = {
  accept: 'placement.accepted', drag: 'placement.dragged', reject: 'placement.rejected',
}

/**
 * A person says where a reading belongs: one of its candidates (its nearest splice, another one, or a new one), a place on the line, or
 * nowhere. The splice it leaves and the one it comes to are assessed anew in the same transaction.
 */
export async function settleReview(scope: Scope, readingId: number, decision: PlacementDecision, actor: string): Promise<Result<ReviewItem, CaseError>> {
  return inTransaction(async (tx) => {
    const current = await lockPlacement(scope, readingId, tx)
    const says = current && await readingSays(scope, readingId, tx)
    if (!current || !says) return noSuch('reading')
    const lacking = decision.action === 'reject' && !decision.reason?.trim() ? await needsReason(scope, tx, readingId) : undefined
    if (lacking) return lacking
    const placement = await decide(scope, tx, current, says, decision)
    if (!placement.ok) return placement
    await supersedePlacement(scope, current, placement.value, { supersedesId: current.id, decidedBy: actor }, tx)
    return follow(scope, tx, current, placement.value, { actor, action: ACTIONS[decision.action] })
  })
}

/** What was urgent or critical when it came in leaves the review with a word that others can judge. */
async function needsReason(scope: Scope, tx: Tx, readingId: number): Promise<Result<never, CaseError> | undefined> {
  const [worst] = await listUrgent(scope, { readingId }, tx)
  return worst && refuse('invalid', `This reading is ${worst.class}: it is not set aside without a reason.`, 'Say in reason why it counts for nothing.')
}

/** Takes a person's last decision on a reading back: what stood before stands again. A class that rose to urgent or critical stays held. */
export async function takeBackReview(scope: Scope, readingId: number, actor: string): Promise<Result<ReviewItem, CaseError>> {
  return inTransaction(async (tx) => {
    const current = await lockPlacement(scope, readingId, tx)
    if (!current) return noSuch('reading')
    const before = current.supersedes_id === null || current.method !== 'person' ? undefined : await earlierPlacement(scope, current.supersedes_id, tx)
    if (!before) return refuse('nothing-to-take-back', 'Nobody has decided on this reading yet.', 'Nothing needs to be done.')
    const restored = await withSplice(scope, tx, before)
    if (!restored) return refuse('wrong-state', 'The line at the place where this reading was has changed since.', 'Drag the mark to its place on the line as it is now.')
    await supersedePlacement(scope, current, restored, before, tx)
    return follow(scope, tx, current, restored, { actor, action: 'placement.taken-back' })
  })
}

/** A placement that comes back finds its splice gone where nothing else supported it: it is made again. */
async function withSplice(scope: Scope, tx: Tx, before: NewPlacement): Promise<NewPlacement | undefined> {
  if (before.state !== 'placed' || !before.place) return before
  const span = await spanAt(scope, before.place.sectionId, before.place.lineDistanceM, tx)
  const says = await readingSays(scope, before.readingId, tx)
  if (!span || !says) return undefined
  const place = { ...before.place, spanId: span.id }
  return { ...before, place, spliceId: before.spliceId ?? await makeSplice(scope, tx, place, span, says, undefined) }
}

/** What follows from a reading's new place. */
async function follow(
  scope: Scope, tx: Tx, old: CurrentPlacement, placement: NewPlacement, by: { actor: string; action: AuditAction },
): Promise<Result<ReviewItem, CaseError>> {
  const touched = [...new Set([old.splice_id, placement.spliceId].filter((id) => id !== null))]
  await recoverSpans(scope, old.import_id, touched, tx)
  const removed = await removeUnsupportedSplices(scope, touched, tx)
  const stays = touched.filter((id) => !removed.some((gone) => gone.id === id))
  const policy = await currentPolicy(scope, tx)
  await reassessSplices(scope, tx, stays, { policy, asOfMs: Date.now(), cause: 'review', importId: null })
  const circuitIds = [...new Set([old.circuit_id, placement.place?.circuitId ?? null, ...removed.map((gone) => gone.circuit_id)].filter((id) => id !== null))]
  await rollUpCircuits(scope, circuitIds.sort((a, b) => a - b), policy, tx)
  const { place } = placement
  const places = placement.candidates.filter((one) => place === null || one.circuitId === place.circuitId)
  await moveNotice(scope, old.reading_id, noticeCircuits(places), place?.circuitId ?? null, tx)
  await raiseDataVersion(scope, tx)
  await writeAudit(scope, {
    actor: by.actor, action: by.action, subject: { kind: 'reading', id: old.reading_id },
    detail: { from: { state: old.state, splice_id: old.splice_id }, to: { state: placement.state, splice_id: placement.spliceId }, removed: removed.map((gone) => gone.splice) },
  }, tx)
  const item = await getReviewItem(scope, old.reading_id, tx)
  return item ? ok(item) : noSuch('reading')
}
