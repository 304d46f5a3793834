import { accessOf } from '@/app/api/http/access'
import { log } from '@/app/api/http/log'
import { others } from '@/app/api/http/others'
import { problem } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { dataVersion } from '@/lib/store/state'

export const dynamic = 'force-dynamic'

/** The store answers too: send work here. */
export async function GET(request: Request): Promise<Response> {
  try {
    await dataVersion(accessOf(request).scope)
    return json({ status: 'ready' })
  } catch (e) {
    log.warn({ err: e }, 'the store does not answer')
    return problem(503, {
      code: 'store-unreachable',
      detail: 'The database does not answer.',
      remedy: 'See that PostgreSQL runs and that DATABASE_URL names it.',
    })
  }
}

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
