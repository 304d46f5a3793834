import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { surveysOfSpan } from '@/lib/store/survey-layer'

export const dynamic = 'force-dynamic'

export const GET = readingOne('span', async (_request, { scope }, id) => {
  const span = await surveysOfSpan(scope, id)
  return span ? json(span) : notFound('span')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
