import { takingBack, telling } from '@/app/api/http/acknowledging'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'

export const dynamic = 'force-dynamic'

const which = (noticeId: number) => ({ noticeId })

/** The control room was told of what this notice is about, a row that was not read among them. */
export const POST = changingOne('notice', telling(which))

export const DELETE = changingOne('notice', takingBack(which))

export const { GET, PUT, PATCH, OPTIONS } = others('POST', 'DELETE')
