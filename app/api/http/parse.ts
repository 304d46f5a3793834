import { z } from 'zod'
import { faultsOf } from '@/lib/contract/issue-sentence'
import { err, ok, type Result } from '@/lib/result/result'
import { withFullStop } from '@/lib/units/full-stop'
import { problem, problemOf } from './problem'

/** What a query is checked as where the address takes none. */
export const NO_QUERY = z.object({})

/** The query string against its schema: a key that is not known is refused, and one given again where it is no list. */
export function parseQuery<S extends z.ZodObject>(request: Request, schema: S): Result<z.infer<S>, Response> {
  const { searchParams } = new URL(request.url)
  const given = new Map<string, string[]>()
  for (const [key, text] of searchParams) given.set(key, [...given.get(key) ?? [], text])
  const again = [...given].filter(([key, texts]) => texts.length > 1 && key in schema.shape && !isList(schema.shape[key]))
  if (again.length > 0) return err(refuseAgain(again.map(([key, texts]) => [key, texts.length])))
  const values = Object.fromEntries([...given].map(([key, texts]) => [key, texts.join(',')]))
  const zeros = refuseZeros(values)
  return zeros ? err(zeros) : checked(values, schema.strict() as unknown as S, 'The query')
}

interface Def { type: string; innerType?: z.ZodType; out?: z.ZodType }

function isList(schema: unknown): boolean {
  const { type, innerType, out } = (schema as z.ZodType).def as unknown as Def
  const inner = innerType ?? (type === 'pipe' ? out : undefined)
  return type === 'array' || (inner !== undefined && isList(inner))
}

function refuseAgain(again: [key: string, times: number][]): Response {
  const errors = again.map(([key, times]) => ({ path: key, message: `${key} is given ${times} times.`, remedy: `Give ${key} once: it is no list.` }))
  return problemOf(400, 'repeated-key', errors)
}

/** The JSON body against its schema, up to `limitBytes`. No body at all counts as none given, where the schema has something for that. */
export async function parseBody<S extends z.ZodType>(
  request: Request, schema: S, limitBytes = 1_000_000,
): Promise<Result<z.infer<S>, Response>> {
  const text = await readText(request, limitBytes)
  if (text === null) {
    return err(problem(413, {
      code: 'too-large', detail: `The body is larger than ${limitBytes / 1e6} MB.`, remedy: 'Send less at a time, or import it as a file.',
    }))
  }
  let value: unknown
  try {
    value = text === '' && schema.safeParse(undefined).success ? undefined : JSON.parse(text)
  } catch (e) {
    return err(problem(400, {
      code: 'not-json', detail: withFullStop(`The body is not JSON: ${e instanceof Error ? e.message : String(e)}`), remedy: 'Send a JSON body.',
    }))
  }
  // Of a list every row is judged by itself, its zeros too.
  const zeros = Array.isArray(value) ? null : refuseZeros(value)
  return zeros ? err(zeros) : checked(value, schema, 'The body')
}

/** 400 where a text holds a character of code 0, which no name has and PostgreSQL does not store. */
function refuseZeros(value: unknown): Response | null {
  const paths = zerosIn(value)
  if (paths.length === 0) return null
  return problemOf(400, 'invalid', paths.map((path) => ({
    path, message: `${path === '' ? 'The text' : path} holds a zero byte (U+0000).`, remedy: 'Leave it away: no text here has one.',
  })))
}

function zerosIn(value: unknown, path = ''): string[] {
  if (typeof value === 'string') return value.includes('\0') ? [path] : []
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, of]) => (key.includes('\0') ? [path] : zerosIn(of, path === '' ? key : `${path}.${key}`)))
}

/** A server-issued id from the address. */
export function parseId(text: string): number | null {
  return /^[1-9]\d{0,9}$/.test(text) && Number(text) <= 2 ** 31 - 1 ? Number(text) : null
}

/** A value against its schema; where it does not fit, a problem that names the fields, what is wrong with each, and what would fit. */
export function checked<S extends z.ZodType>(value: unknown, schema: S, whole = 'The request'): Result<z.infer<S>, Response> {
  const result = schema.safeParse(value, { reportInput: true })
  if (result.success) return ok(result.data)
  const faults = faultsOf(result.error.issues, value, schema, whole)
  return err(problemOf(400, faults.every((fault) => fault.isUnknownKey) ? 'unknown-key' : 'invalid', faults))
}

async function readText(request: Request, limitBytes: number): Promise<string | null> {
  const chunks: Uint8Array[] = []
  let size = 0
  for await (const chunk of request.body ?? []) {
    size += chunk.byteLength
    if (size > limitBytes) return null
    chunks.push(chunk)
  }
  return new TextDecoder().decode(Buffer.concat(chunks))
}
