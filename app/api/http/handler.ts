import { accessOf, type Access } from './access'
import { refuseForeign } from './guard'
import { log } from './log'
import { parseId } from './parse'
import { notFound, problem } from './problem'

interface Context { params: Promise<Record<string, string>> }
type Handler = (request: Request, context: Context) => Promise<Response>
type Work = (request: Request, access: Access) => Promise<Response>
type WorkOnOne = (request: Request, access: Access, id: number) => Promise<Response>

/** A handler that changes nothing. */
export const reading = (work: Work): Handler => caught((request) => work(request, accessOf(request)))

/** The same for an address with a server-issued id; `what` names the thing where there is none. */
export const readingOne = (what: string, work: WorkOnOne): Handler => caught(onOne(what, work))

/** A handler that changes something: only for our own pages and for programs with a bearer token. */
export const changing = (work: Work): Handler => caught(async (request) => refuseForeign(request) ?? work(request, accessOf(request)))

/** The same for an address with a server-issued id. */
export const changingOne = (what: string, work: WorkOnOne): Handler => {
  const one = onOne(what, work)
  return caught(async (request, context) => refuseForeign(request) ?? one(request, context))
}

const onOne = (what: string, work: WorkOnOne): Handler => async (request, context) => {
  const id = parseId((await context.params).id ?? '')
  return id === null ? notFound(what) : work(request, accessOf(request), id)
}

/** What nobody foresaw is logged and answered as a problem without its details. */
export const caught = (handler: Handler): Handler => async (request, context) => {
  try {
    return await handler(request, context)
  } catch (e) {
    log.error({ err: e, method: request.method, path: new URL(request.url).pathname }, 'a request failed')
    return problem(500, {
      code: 'server-failure',
      detail: 'The server failed while answering.',
      remedy: 'Try again; if it stays, look in the server log. What was stored before stands.',
    })
  }
}
