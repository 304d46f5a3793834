import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { getReading } from '@/lib/store/readings'

export const dynamic = 'force-dynamic'

export const GET = readingOne('reading', async (_request, { scope }, id) => {
  const found = await getReading(scope, id)
  return found ? json(found) : notFound('reading')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
