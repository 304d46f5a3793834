import type { z } from 'zod'
import { problem } from '@/lib/contract/problem'

/** What, where and remedy of a refused or failed request. `status` is 0 where no answer came. */
export class RequestFailed extends Error {
  constructor(
    readonly title: string,
    readonly remedy: string,
    readonly status: number,
    readonly where: string,
    readonly code?: string,
    /** Which fields were refused and why, by their path. */
    readonly fields: readonly { path: string; message: string }[] = [],
  ) {
    super(title)
    this.name = 'RequestFailed'
  }
}

/**
 * JSON of the API, checked against its schema.
 * @throws RequestFailed with a sentence and a remedy: no answer, a problem (RFC 9457), or an answer that is not what the schema says.
 */
export async function fetchJson<T extends z.ZodType>(url: string, schema: T, init?: RequestInit): Promise<z.infer<T>> {
  let response: Response
  try {
    response = await fetch(url, { ...init, headers: { accept: 'application/json', ...init?.headers } })
  } catch (e) {
    if (e instanceof DOMException && e.name === 'AbortError') throw e
    throw new RequestFailed(
      'The server did not answer.',
      'Check that it is running and that this computer reaches it, then try again.',
      0,
      url,
    )
  }
  const body: unknown = await response.json().catch(() => null)
  if (!response.ok) throw refusalOf(response.status, body, url)
  const parsed = schema.safeParse(body)
  if (!parsed.success) {
    const first = parsed.error.issues[0]
    throw new RequestFailed(
      'The server answered in a form this page does not know.',
      `Reload the page, its version may be older than the server's. (${first?.path.join('.')}: ${first?.message})`,
      response.status,
      url,
    )
  }
  return parsed.data
}

/** A request that sends a body of JSON. */
export const sending = (method: 'POST' | 'PUT', body: unknown): RequestInit => ({
  method, headers: { 'content-type': 'application/json' }, body: JSON.stringify(body),
})

/** An answer that refuses, told by its problem (RFC 9457) where it has one. */
export function refusalOf(status: number, body: unknown, url: string, remedy = 'Try again; when it stays, tell whoever runs the server.'): RequestFailed {
  const told = problem.safeParse(body)
  if (!told.success) return new RequestFailed(`The server answered ${status} without saying why.`, remedy, status, url)
  const { detail, title, code, errors } = told.data
  return new RequestFailed(detail ?? title, told.data.remedy || remedy, status, url, code, errors)
}

/** An address of the API in a remedy is for programs. */
const forPeople = (remedy: string): string => remedy.replace(/ \(\/api\/[^)]*\)/g, '')

/** The same as sentences for an ErrorState. Where the server has said what is wrong, its address tells nothing more. */
export function asSentences(error: unknown): { title: string; remedy: string; where?: string } {
  if (error instanceof RequestFailed) {
    return { title: error.title, remedy: forPeople(error.remedy), ...(error.code === undefined && { where: error.where }) }
  }
  return {
    title: 'Something went wrong in this page.',
    remedy: 'Reload the page.',
    where: error instanceof Error ? error.message : undefined,
  }
}
