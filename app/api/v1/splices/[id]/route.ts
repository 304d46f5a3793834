import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { getSplice } from '@/lib/store/splice-detail'

export const dynamic = 'force-dynamic'

export const GET = readingOne('splice', async (_request, { scope }, id) => {
  const splice = await getSplice(scope, id)
  return splice ? json(splice) : notFound('splice')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
