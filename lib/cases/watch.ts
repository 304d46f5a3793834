import { filterToQuery, spliceFilterQuery, toSpliceFilter } from '@/lib/contract/filter'
import type { SavedView, SpliceOwner } from '@/lib/contract/watch'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { deleteView, dropOwner, insertView, ownerOf, putOwner } from '@/lib/store/watch'
import { splicePlace } from '@/lib/store/splices'
import { noSuch, refuse, type CaseError } from './problem'

/** A named person takes a splice, another one takes it over, or nobody has it any more. */
export async function takeSplice(scope: Scope, spliceId: number, owner: string | null, actor: string): Promise<Result<SpliceOwner, CaseError>> {
  return inTransaction(async (tx): Promise<Result<SpliceOwner, CaseError>> => {
    if (!await splicePlace(scope, spliceId, tx)) return noSuch('splice in service')
    const before = await ownerOf(scope, spliceId, tx)
    if (before.owner === owner) return ok(before)
    await (owner === null ? dropOwner(scope, spliceId, tx) : putOwner(scope, spliceId, owner, actor, tx))
    await writeAudit(scope, { actor, action: 'splice.taken', subject: { kind: 'splice', id: spliceId }, detail: { from: before.owner, to: owner } }, tx)
    await raiseDataVersion(scope, tx)
    return ok(await ownerOf(scope, spliceId, tx))
  })
}

/** Keeps a filter under a name for everybody of the scope. */
export async function saveView(scope: Scope, { name, query }: { name: string; query: string }, actor: string): Promise<Result<SavedView, CaseError>> {
  const filter = spliceFilterQuery.strict().safeParse(Object.fromEntries(new URLSearchParams(query)))
  if (!filter.success) {
    const [issue] = filter.error.issues
    return refuse('invalid', `'${query.slice(0, 120)}' is no filter of the list: ${issue?.path.join('.') || 'it'} does not fit.`,
      'Give the fields class, circuit, voltage, phase, confidence, survey, age and evidence as they stand in the address.')
  }
  return inTransaction(async (tx): Promise<Result<SavedView, CaseError>> => {
    const view = await insertView(scope, { name, query: filterToQuery(toSpliceFilter(filter.data)), actor }, tx)
    if (!view) return refuse('in-use', `A view is called ${name} already.`, 'Give it another name, or delete that one first.')
    await writeAudit(scope, { actor, action: 'view.saved', subject: { kind: 'view', id: view.id }, detail: { name, query: view.query } }, tx)
    return ok(view)
  })
}

/** Answers with what was deleted, so that it can be saved again. */
export async function removeView(scope: Scope, id: number, actor: string): Promise<Result<SavedView, CaseError>> {
  return inTransaction(async (tx): Promise<Result<SavedView, CaseError>> => {
    const view = await deleteView(scope, id, tx)
    if (!view) return noSuch('saved view')
    await writeAudit(scope, { actor, action: 'view.deleted', subject: { kind: 'view', id }, detail: { name: view.name, query: view.query } }, tx)
    return ok(view)
  })
}
