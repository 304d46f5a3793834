import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { stripOfCircuit } from '@/lib/store/strip'

export const dynamic = 'force-dynamic'

export const GET = readingOne('circuit', async (_request, { scope }, id) => {
  const found = await stripOfCircuit(scope, id)
  return found ? json(found) : notFound('circuit')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
