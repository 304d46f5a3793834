export const dynamic = 'force-dynamic'

/** The process answers. */
export const GET = () => Response.json({ status: 'live' })
