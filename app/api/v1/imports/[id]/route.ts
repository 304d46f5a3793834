import { readingOne } from '@/app/api/http/handler'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
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
