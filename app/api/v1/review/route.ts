import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { reviewQuery } from '@/lib/contract/intake'
import { getReviewItem, listReview } from '@/lib/store/readings'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => {
  const { state, cause, reading: readingId, cursor, limit } = query
  if (readingId === undefined) return json(await listReview(scope, { state, cause, cursor, limit }))
  const item = await getReviewItem(scope, readingId)
  return json({ items: item ? [item] : [], next_cursor: null, total: item ? 1 : 0, causes: [] })
}, reviewQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
