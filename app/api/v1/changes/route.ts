import { reading } from '@/app/api/http/handler'
import { refuseUnknownCircuits } from '@/app/api/http/named-things'
import { others } from '@/app/api/http/others'
import { problemOf } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { changesQuery } from '@/lib/contract/changes'
import { listChanges } from '@/lib/store/changes'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => {
  const { since, circuit, kind, cursor, limit } = query
  if (cursor !== undefined && kind?.length !== 1) {
    return problemOf(400, 'invalid', [{ path: 'kind', message: 'A cursor continues one kind of change, and kind does not name one.', remedy: 'Give the kind whose next_cursor it is: kind=class.' }])
  }
  return json(await listChanges(scope, { since: new Date(since), circuitIds: circuit?.length ? circuit : undefined, kinds: kind, cursor, limit }))
}, changesQuery, refuseUnknownCircuits)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
