import { readingOne } from '@/app/api/http/handler'
import { refuseUnknownCircuits } from '@/app/api/http/named-things'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { spliceFilterQuery, toSpliceFilter } from '@/lib/contract/filter'
import { stripOfCircuit } from '@/lib/store/strip'

export const dynamic = 'force-dynamic'

export const GET = readingOne('circuit', async (_request, { scope, query }, id) => {
  const found = await stripOfCircuit(scope, id, toSpliceFilter(query))
  return found ? json(found) : notFound('circuit')
}, spliceFilterQuery, refuseUnknownCircuits)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
