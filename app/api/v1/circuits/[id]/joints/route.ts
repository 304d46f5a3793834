import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { jointsOfCircuit } from '@/lib/store/line-joints'

export const dynamic = 'force-dynamic'

export const GET = readingOne('circuit', async (_request, { scope }, id) => {
  const found = await jointsOfCircuit(scope, id)
  return found ? json(found) : notFound('circuit')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
