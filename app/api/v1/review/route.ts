import { reading } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { reviewQuery } from '@/lib/contract/intake'
import { getReviewItem, listReview } from '@/lib/store/readings'

export const dynamic = 'force-dynamic'

export const GET = reading(async (request, { scope }) => {
  const query = parseQuery(request, reviewQuery)
  if (!query.ok) return query.error
  const { state, cause, reading: readingId, cursor } = query.value
  if (readingId === undefined) return json(await listReview(scope, { state, cause, cursor }))
  const item = await getReviewItem(scope, readingId)
  return json({ items: item ? [item] : [], next_cursor: null, total: item ? 1 : 0, causes: [] })
})
