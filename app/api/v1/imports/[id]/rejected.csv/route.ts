import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { csv, streamOf } from '@/app/api/http/respond'
import { rejectedRowsCsv } from '@/lib/cases/rejected-rows-csv'

export const dynamic = 'force-dynamic'

/** The rejected rows under the file's own columns with what is wrong with each, to correct and send again. */
export const GET = readingOne('import', async (_request, { scope }, id) => {
  const rejected = await rejectedRowsCsv(scope, id)
  return rejected ? csv(rejected.fileName, streamOf(rejected.lines)) : notFound('import')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
