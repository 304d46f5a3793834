import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { getJob } from '@/lib/store/jobs'

export const dynamic = 'force-dynamic'

export const GET = readingOne('job', async (_request, { scope }, id) => {
  const job = await getJob(scope, id)
  return job ? json(job) : notFound('job')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
