import type { z } from 'zod'
import { err, ok, type Result } from '@/lib/result/result'
import { problem } from './problem'

/** The query string against its schema; a key given twice counts once, the last. */
export function parseQuery<S extends z.ZodType>(request: Request, schema: S): Result<z.infer<S>, Response> {
  return checked(Object.fromEntries(new URL(request.url).searchParams), schema)
}

/** The JSON body against its schema, up to `limitBytes`. */
export async function parseBody<S extends z.ZodType>(
  request: Request, schema: S, limitBytes = 1_000_000,
): Promise<Result<z.infer<S>, Response>> {
  const text = await readText(request, limitBytes)
  if (text === null) {
    return err(problem(413, {
      code: 'too-large', detail: `The body is larger than ${limitBytes / 1e6} MB.`, remedy: 'Send less at a time, or import it as a file.',
    }))
  }
  try {
    return checked(JSON.parse(text), schema)
  } catch (e) {
    return err(problem(400, {
      code: 'not-json', detail: `The body is not JSON: ${e instanceof Error ? e.message : String(e)}.`, remedy: 'Send a JSON body.',
    }))
  }
}

/** A server-issued id from the address. */
export function parseId(text: string): number | null {
  return /^[1-9]\d{0,9}$/.test(text) && Number(text) <= 2 ** 31 - 1 ? Number(text) : null
}

/** A value against its schema; where it does not fit, a problem that names the fields. */
export function checked<S extends z.ZodType>(value: unknown, schema: S): Result<z.infer<S>, Response> {
  const result = schema.safeParse(value)
  if (result.success) return ok(result.data)
  const errors = result.error.issues.slice(0, 50).map((issue) => ({ path: issue.path.join('.'), message: issue.message }))
  const first = errors[0]
  return err(problem(400, {
    code: 'invalid',
    detail: first ? `${first.path || 'The request'}: ${first.message}.` : 'The request does not fit its description.',
    remedy: 'Correct the fields named here; /api/openapi.json describes them.',
    errors,
  }))
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
