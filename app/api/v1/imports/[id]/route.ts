import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne, readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { endImport } from '@/lib/cases/end-import'
import { importAsOfNow } from '@/lib/store/import-as-of-now'
import { getImport } from '@/lib/store/imports'

export const dynamic = 'force-dynamic'

export const GET = readingOne('import', async (_request, { scope }, id) => {
  const found = await importAsOfNow(scope, id)
  return found ? json(found) : notFound('import')
})

/** Cancels it while it waits or runs, undoes it as one act once it is done, and answers with how it stands then and what went with it. */
export const DELETE = changingOne('import', async (_request, { scope, actor }, id) => {
  const ended = await endImport(scope, id, actor)
  if (!ended.ok) return caseProblem(ended.error)
  const undo = ended.value && {
    ...ended.value, held: ended.value.held.map((s) => ({ splice_id: s.spliceId, class: s.class, measured_class: s.measuredClass })),
  }
  return json({ ...await getImport(scope, id), undo })
})

export const { POST, PUT, PATCH, OPTIONS } = others('GET', 'DELETE')
