import { noSuchThing } from '@/lib/cases/problem'
import type { Problem } from '@/lib/contract/problem'

type Details = Omit<Problem, 'type' | 'status' | 'title'> & { code: string }

/** What a status says of a request that came to nothing. */
export const TITLES: Record<number, string> = {
  400: 'The request cannot be understood',
  403: 'The request is not allowed',
  404: 'Nothing is here',
  405: 'This method is not answered here',
  409: 'The request does not fit what is stored now',
  413: 'The upload is too large',
  415: 'The kind of content is not taken here',
  422: 'The content cannot be used',
  500: 'The server failed',
  503: 'The server is not ready',
}

/** A refusal as RFC 9457 has it. `detail` says what is wrong and `remedy` what to do, each a sentence. */
export function problem(status: number, { code, ...details }: Details, headers: Record<string, string> = {}): Response {
  const body: Problem = { type: `urn:spanledger:problem:${code}`, title: TITLES[status] ?? 'The request failed', status, code, ...details }
  return Response.json(body, { status, headers: { 'Content-Type': 'application/problem+json', 'Cache-Control': 'no-store', ...headers } })
}

export interface Fault { path: string; message: string; remedy: string }

const TOLD_FAULTS = 3
const SHOWN_FAULTS = 50

/** Several faults as one problem: the first few in words, and one remedy that puts all of those right. */
export function problemOf(status: number, code: string, faults: readonly Fault[]): Response {
  const rest = faults.length - TOLD_FAULTS
  const told = faults.slice(0, TOLD_FAULTS).map(({ message }) => message)
  return problem(status, {
    code, detail: [...told, ...rest > 0 ? [`${rest} more ${rest === 1 ? 'is' : 'are'} wrong.`] : []].join(' '), remedy: remedyOfAll(faults),
    errors: faults.slice(0, SHOWN_FAULTS).map(({ path, message, remedy }) => ({ path, message, remedy })),
  })
}

function remedyOfAll(faults: readonly Fault[]): string {
  const remedies = new Set(faults.map(({ remedy }) => remedy))
  if (remedies.size === 0) return 'See /api/openapi.json.'
  if (remedies.size === 1) return [...remedies].join()
  const told = faults.slice(0, TOLD_FAULTS).map(({ path, remedy }) => (path === '' ? remedy : `${path}: ${remedy}`))
  return [...told, ...faults.length > TOLD_FAULTS ? ['The rest stands under errors.'] : []].join(' ')
}

/** 400 for a cursor that no page of this list gave. */
export function badCursor(cursor: string): Response {
  const shown = cursor.length > 60 ? `${cursor.slice(0, 60)}…` : cursor
  const fault = {
    message: `cursor is '${shown}', which no page of this list, with this filter and in this order, has given.`,
    remedy: 'Take next_cursor of the page before as it stands and ask with the same filter and order, or leave cursor away for the first page.',
  }
  return problem(400, { code: 'bad-cursor', detail: fault.message, remedy: fault.remedy, errors: [{ path: 'cursor', ...fault }] })
}

/** 404 for a thing that is not there, or that the caller may not see. */
export const notFound = (what: string): Response => {
  const { code, message, remedy } = noSuchThing(what)
  return problem(404, { code, detail: message, remedy })
}
