import { problem } from '@/app/api/http/problem'

export const dynamic = 'force-dynamic'

/** An address that nothing answers, for programs: a problem and no page. */
const nothing = (request: Request): Response => problem(404, {
  code: 'no-such-address',
  detail: `There is nothing at ${new URL(request.url).pathname}.`,
  remedy: '/api/openapi.json lists every address.',
})

export { nothing as GET, nothing as POST, nothing as PUT, nothing as PATCH, nothing as DELETE }
