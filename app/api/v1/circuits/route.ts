import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { listCircuits } from '@/lib/store/circuits'

export const dynamic = 'force-dynamic'

/** Every circuit, the worst first: a utility has hundreds, so one page holds them. */
export const GET = reading(async (_request, { scope }) => {
  const items = await listCircuits(scope)
  return json({ items, next_cursor: null, total: items.length })
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
