import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne, readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { undoImport } from '@/lib/cases/undo-import'
import { getImport } from '@/lib/store/imports'
import { listUrgent } from '@/lib/store/urgent'

export const dynamic = 'force-dynamic'

export const GET = readingOne('import', async (_request, { scope }, id) => {
  const found = await getImport(scope, id)
  if (!found) return notFound('import')
  if (!found.report || found.dry_run) return json(found)
  // The counts stand as they were; who was called and where a reading lies may have changed since.
  return json({ ...found, report: { ...found.report, urgent: await listUrgent(scope, { importId: id }) } })
})

/** Undoes it as one act and answers with how it stands then and what went with it. */
export const DELETE = changingOne('import', async (_request, { scope, actor }, id) => {
  const undone = await undoImport(scope, id, actor)
  if (!undone.ok) return caseProblem(undone.error)
  const held = undone.value.held.map((s) => ({ splice_id: s.spliceId, class: s.class, measured_class: s.measuredClass }))
  return json({ ...await getImport(scope, id), undo: { ...undone.value, held } })
})

export const { POST, PUT, PATCH, OPTIONS } = others('GET', 'DELETE')
