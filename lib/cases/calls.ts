import type { CallEntryJson, RecordCall, StrikeCall } from '@/lib/contract/calls'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import { callById, insertCall, strikeCall, tellByCall, untellByCall } from '@/lib/store/calls'
import { lockSplices } from '@/lib/store/evidence'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction, type Tx } from '@/lib/store/transaction'
import { noSuch, refuse, type CaseError } from './problem'

type Outcome = Result<CallEntryJson, CaseError>

/** Clocks differ by this much at most: nothing is noted before it happens. */
const AHEAD_MS = 5 * 60_000

/** A call about a splice, or a look at it in a peak-load period, for the next shift to read. */
export async function recordCall(scope: Scope, spliceId: number, said: RecordCall, actor: string): Promise<Outcome> {
  const nowMs = Date.now()
  if (said.at !== undefined && Date.parse(said.at) > nowMs + AHEAD_MS) {
    return refuse('invalid', `at is ${said.at}, which is still to come.`, 'Give the time at which it was, or leave it away: it is then now.')
  }
  const wrong = said.kind === 'call' ? contradiction(said) : null
  if (wrong) return refuse('invalid', ...wrong)
  return inTransaction(async (tx): Promise<Outcome> => {
    await lockSplices(scope, [spliceId], tx)
    // A clock that runs ahead writes what the database calls now.
    const at = said.at === undefined || Date.parse(said.at) > nowMs ? null : said.at
    const call = said.kind === 'call' ? said : null
    const id = await insertCall(scope, {
      spliceId, kind: said.kind, by: said.by, whom: call?.whom ?? null, at, decided: call?.decided ?? [], nothingWhy: call?.nothing_why ?? null, note: said.note ?? null, actor,
    }, tx)
    if (id === undefined) return noSuch('splice')
    const told = call?.told_control_room ? await tellByCall(id, spliceId, actor, tx) : 0
    await writeAudit(scope, {
      actor, action: said.kind === 'call' ? 'call.recorded' : 'look.recorded', subject: { kind: 'splice', id: spliceId },
      detail: { call_id: id, by: said.by, ...call && { whom: call.whom, decided: call.decided }, ...told > 0 && { notices_told: told } },
    }, tx)
    return answer(scope, id, tx)
  })
}

function contradiction({ decided, nothing_why: why }: Extract<RecordCall, { kind: 'call' }>): [string, string] | null {
  const has = new Set(decided)
  if (has.size < decided.length) return ['decided names something twice.', 'Name each decision once.']
  if (has.has('reclosing-blocked') && has.has('reclosing-left-on')) return ['Reclosing is blocked and left on.', 'Give the one that was decided.']
  if (has.has('nothing-yet') && has.size > 1) return ['Nothing was decided yet, and something was.', 'Give nothing-yet alone, or what was decided.']
  if (has.has('nothing-yet') && why === undefined) return ['Nothing was decided yet, without why.', 'Say why in nothing_why.']
  if (!has.has('nothing-yet') && why !== undefined) return ['nothing_why is given, and something was decided.', 'Leave nothing_why away; what else was said goes into note.']
  return null
}

/** A wrong entry is struck with a reason and stays readable. What the control room was told by it waits again. */
export async function strikeEntry(scope: Scope, id: number, { struck_by: by, why }: StrikeCall, actor: string): Promise<Outcome> {
  return inTransaction(async (tx): Promise<Outcome> => {
    const seen = await callById(scope, id, tx)
    if (!seen || seen.splice_id === null) return noSuch('entry of the log')
    await lockSplices(scope, [seen.splice_id], tx)
    if (await strikeCall(id, by, why, tx) === 0) return refuse('wrong-state', 'This entry was struck already.', 'Nothing needs to be done.')
    const waiting = await untellByCall(id, tx)
    await writeAudit(scope, {
      actor, action: 'call.struck', subject: { kind: 'splice', id: seen.splice_id }, detail: { call_id: id, by, why, ...waiting > 0 && { notices_waiting_again: waiting } },
    }, tx)
    return answer(scope, id, tx)
  })
}

async function answer(scope: Scope, id: number, tx: Tx): Promise<Outcome> {
  await raiseDataVersion(scope, tx)
  const entry = await callById(scope, id, tx)
  return entry ? ok(entry) : noSuch('entry of the log')
}
