import { others } from '@/app/api/http/others'

export const dynamic = 'force-dynamic'

/** The process answers. */
export const GET = () => Response.json({ status: 'live' })

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
