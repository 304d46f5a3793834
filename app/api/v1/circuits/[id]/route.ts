import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { getCircuit } from '@/lib/store/circuits'

export const dynamic = 'force-dynamic'

export const GET = readingOne('circuit', async (_request, { scope }, id) => {
  const circuit = await getCircuit(scope, id)
  return circuit ? json(circuit) : notFound('circuit')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
