import type { ReviewAct, ReviewActBody, ReviewActKind, ReviewActPreview, ReviewChoice, StayReason } from '@/lib/contract/review-acts'
import { ok, type Result } from '@/lib/result/result'
import { enqueueJob } from '@/lib/store/jobs'
import {
  countChosen, eachChosen, importsWaiting, insertReviewAct, latestPlacementId, listReviewActs, lockReviewAct, setActJob,
} from '@/lib/store/review-acts'
import type { Scope } from '@/lib/store/scope'
import { database, inTransaction, type Db } from '@/lib/store/transaction'
import { noSuch, outOfScope, refuse, type CaseError } from '../problem'
import { BestPlaces } from './best-places'

/** What an act on many waiting readings would do now, nothing stored. */
export async function previewReviewAct(scope: Scope, action: ReviewActKind, choice: ReviewChoice): Promise<Result<ReviewActPreview, CaseError>> {
  if (scope.circuitIds) return outOfScope()
  const db = database()
  const { upTo: _upTo, ...would } = await plan(scope, action, choice, db)
  return ok({ ...would, imports: await importsWaiting(scope, choice.cause, db) })
}

async function plan(scope: Scope, action: ReviewActKind, choice: ReviewChoice, db: Db): Promise<Omit<ReviewActPreview, 'imports'> & { upTo: number }> {
  const upTo = await latestPlacementId(scope, db)
  const { chosen, urgent } = await countChosen(scope, choice, db)
  if (action === 'set-aside') {
    return { upTo, chosen, settles: chosen - urgent, circuits: [], new_splices: 0, stays: urgent > 0 ? [{ why: 'urgent', count: urgent }] : [] }
  }
  const places = new BestPlaces(scope, db)
  const circuits = new Map<number, { circuit_id: number; circuit: string; count: number }>()
  const stays = new Map<StayReason, number>()
  let [settles, fresh] = [0, 0]
  for await (const rows of eachChosen(scope, choice, { upTo, hold: false }, db)) {
    const found = await places.of(rows)
    for (const { at, spliceId } of found.accepted) {
      const circuit = circuits.get(at.circuitId) ?? { circuit_id: at.circuitId, circuit: at.circuit, count: 0 }
      circuit.count++
      circuits.set(at.circuitId, circuit)
      if (spliceId === null) fresh++
    }
    settles += found.accepted.length
    for (const [why, count] of found.stays) stays.set(why, (stays.get(why) ?? 0) + count)
  }
  const most = <T extends { count: number }>(all: Iterable<T>): T[] => [...all].sort((a, b) => b.count - a.count)
  return { upTo, chosen, settles, circuits: most(circuits.values()), new_splices: fresh, stays: most([...stays].map(([why, count]) => ({ why, count }))) }
}

/** A person settles many waiting readings at once; it is done in the background, as one. */
export async function beginReviewAct(scope: Scope, body: ReviewActBody, actor: string): Promise<Result<ReviewAct, CaseError>> {
  if (scope.circuitIds) return outOfScope()
  return inTransaction(async (tx) => {
    const { upTo, settles } = await plan(scope, body.action, body.choice, tx)
    if (settles !== body.expected) {
      return refuse('wrong-state', `Of these readings ${settles} can be settled now, not ${body.expected}: some came or were decided on meanwhile.`, 'Look at what the act would do now, and say it again.')
    }
    const id = await insertReviewAct(scope, { action: body.action, reason: body.action === 'set-aside' ? body.reason : null, choice: body.choice, upTo, actor }, tx)
    const jobId = await enqueueJob(scope, { kind: 'review-act', actId: id }, tx)
    if (jobId === undefined) return outOfScope()
    await setActJob(scope, id, jobId, tx)
    const [act] = await listReviewActs(scope, id, tx)
    return act ? ok(act) : noSuch('act')
  })
}

/** Takes such an act back, in the background and as one. */
export async function undoReviewAct(scope: Scope, id: number, actor: string): Promise<Result<ReviewAct, CaseError>> {
  if (scope.circuitIds) return outOfScope()
  return inTransaction(async (tx) => {
    const act = await lockReviewAct(scope, id, tx)
    if (!act) return noSuch('act')
    if (act.undone_at !== null) return refuse('wrong-state', 'This was taken back before.', 'Nothing needs to be done.')
    if (act.done_at === null) return refuse('wrong-state', 'This is not done yet.', 'Wait until it is done, and take it back then.')
    const jobId = await enqueueJob(scope, { kind: 'review-act-undo', actId: id, actor }, tx)
    if (jobId === undefined) return outOfScope()
    await setActJob(scope, id, jobId, tx)
    const [undone] = await listReviewActs(scope, id, tx)
    return undone ? ok(undone) : noSuch('act')
  })
}
