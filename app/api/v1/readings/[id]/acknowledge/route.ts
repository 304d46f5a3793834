import { takingBack, telling } from '@/app/api/http/acknowledging'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'

export const dynamic = 'force-dynamic'

const which = (readingId: number) => ({ readingId })

/** The control room was told of an urgent reading. */
export const POST = changingOne('reading', telling(which))

export const DELETE = changingOne('reading', takingBack(which))

export const { GET, PUT, PATCH, OPTIONS } = others('POST', 'DELETE')
