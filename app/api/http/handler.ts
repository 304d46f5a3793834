import type { z } from 'zod'
import { BadCursor } from '@/lib/store/cursor'
import { accessOf, type Access } from './access'
import { refuseForeign } from './guard'
import { isKnownHost, UNKNOWN_HOST } from './known-host'
import { log } from './log'
import { NO_QUERY, parseId, parseQuery } from './parse'
import { badCursor, notFound, problem } from './problem'

interface Context { params: Promise<Record<string, string>> }
type Handler = (request: Request, context: Context) => Promise<Response>
type Asked<Q extends z.ZodObject> = Access & { query: z.infer<Q> }
type Work<Q extends z.ZodObject> = (request: Request, asked: Asked<Q>) => Promise<Response>
/** Refuses what a query names and the store does not have. */
type Refuse = (request: Request, scope: Access['scope']) => Promise<Response | null>
type WorkOnOne<Q extends z.ZodObject> = (request: Request, asked: Asked<Q>, id: number) => Promise<Response>

/** A handler that changes nothing. `query` is all that may stand behind the question mark. */
export const reading = <Q extends z.ZodObject = typeof NO_QUERY>(work: Work<Q>, query?: Q, refuse?: Refuse): Handler =>
  caught(async (request, context) => await refuse?.(request, accessOf(request).scope) ?? onQuery(work, query)(request, context))

/** The same for an address with a server-issued id; `what` names the thing where there is none. */
export const readingOne = <Q extends z.ZodObject = typeof NO_QUERY>(what: string, work: WorkOnOne<Q>, query?: Q, refuse?: Refuse): Handler =>
  caught(async (request, context) => await refuse?.(request, accessOf(request).scope) ?? onOne(what, work, query)(request, context))

/** A handler that changes something: only for our own pages and for programs with a bearer token. */
export const changing = <Q extends z.ZodObject = typeof NO_QUERY>(work: Work<Q>, query?: Q): Handler => guarded(onQuery(work, query))

/** The same for an address with a server-issued id. */
export const changingOne = <Q extends z.ZodObject = typeof NO_QUERY>(what: string, work: WorkOnOne<Q>, query?: Q): Handler =>
  guarded(onOne(what, work, query))

const guarded = (handler: Handler): Handler => caught(async (request, context) => refuseForeign(request) ?? handler(request, context))

const onQuery = <Q extends z.ZodObject>(work: Work<Q>, query?: Q): Handler => async (request) => {
  const asked = parseQuery(request, query ?? (NO_QUERY as unknown as Q))
  return asked.ok ? work(request, { ...accessOf(request), query: asked.value }) : asked.error
}

const onOne = <Q extends z.ZodObject>(what: string, work: WorkOnOne<Q>, query?: Q): Handler => async (request, context) => {
  const id = parseId((await context.params).id ?? '')
  return id === null ? notFound(what) : onQuery<Q>((_, asked) => work(request, asked, id), query)(request, context)
}

/** What nobody foresaw is logged and answered as a problem without its details. */
export const caught = (handler: Handler): Handler => async (request, context) => {
  try {
    if (!isKnownHost(request.headers.get('host'))) return problem(421, UNKNOWN_HOST)
    return await handler(request, context)
  } catch (e) {
    if (e instanceof BadCursor) return badCursor(e.cursor)
    log.error({ err: e, method: request.method, path: new URL(request.url).pathname }, 'a request failed')
    return problem(500, {
      code: 'server-failure',
      detail: 'The server failed while answering.',
      remedy: 'Try again; if it stays, look in the server log. What was stored before stands.',
    })
  }
}
