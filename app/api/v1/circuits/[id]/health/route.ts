import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { getHealth } from '@/lib/store/health'

export const dynamic = 'force-dynamic'

export const GET = readingOne('circuit', async (_request, { scope }, id) => {
  const health = await getHealth(scope, id)
  return health ? json(health) : notFound('circuit')
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
