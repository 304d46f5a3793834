import { readingOne } from '@/app/api/http/handler'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { getImport } from '@/lib/store/imports'

export const dynamic = 'force-dynamic'

export const GET = readingOne('import', async (_request, { scope }, id) => {
  const found = await getImport(scope, id)
  return found ? json(found) : notFound('import')
})
