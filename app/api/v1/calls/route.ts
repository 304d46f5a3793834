import { reading } from '@/app/api/http/handler'
import { refuseUnknownCircuits } from '@/app/api/http/named-things'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { callsQuery } from '@/lib/contract/calls'
import { listCalls } from '@/lib/store/calls'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query: { circuit, ...rest } }) =>
  json(await listCalls(scope, { circuitIds: circuit, ...rest })), callsQuery, refuseUnknownCircuits)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
