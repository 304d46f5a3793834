import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import busboy from 'busboy'
import type { z } from 'zod'
import { UPLOAD_LIMIT_BYTES } from '@/lib/contract/api'
import { err, ok, type Result } from '@/lib/result/result'
import { withFullStop } from '@/lib/units/full-stop'
import { checked } from './parse'
import { problem } from './problem'

// Boundaries, part headers and the other fields around the file.
const AROUND_BYTES = 2_000_000
const DRAIN_LIMIT_BYTES = 1_000_000_000
const FIELD_LIMIT_BYTES = 1_000_000

export interface Upload {
  fileName: string
  sizeBytes: number
  fields: Record<string, string>
  /** The file's bytes, as often as they are asked for. */
  bytes(): AsyncIterable<Uint8Array>
  /** Its first bytes, at most so many. */
  head(bytes: number): Promise<Uint8Array>
  /** Call when done with the bytes. */
  discard(): Promise<void>
}

/**
 * Receives a multipart form with one `file`, streaming it to a temporary file, so that fields may come before or after it
 * and so that nothing is parsed before all of it has arrived. What declares itself too large is refused before it is read.
 */
export async function receiveUpload(request: Request, limitBytes = UPLOAD_LIMIT_BYTES): Promise<Result<Upload, Response>> {
  const type = request.headers.get('content-type') ?? ''
  if (!type.startsWith('multipart/form-data') || !request.body) return err(notAForm())
  const declaredBytes = Number(request.headers.get('content-length') ?? Number.NaN)
  if (declaredBytes > limitBytes + AROUND_BYTES) {
    void drain(request.body)
    return err(tooLarge(limitBytes, declaredBytes))
  }
  const temporary = path.join(os.tmpdir(), `spanledger-upload-${randomUUID()}`)
  const received = { fileName: '', fields: {} as Record<string, string>, files: 0, tooLarge: false, bytes: 0 }
  try {
    await receive(request.body, type, temporary, limitBytes, received)
  } catch (e) {
    await fs.promises.rm(temporary, { force: true })
    return err(received.tooLarge ? tooLarge(limitBytes) : cutShort(e instanceof Error ? e.message : String(e)))
  }
  const refusal = received.tooLarge ? tooLarge(limitBytes) : received.files !== 1 ? noFile(received.files)
    : received.bytes < declaredBytes ? cutShort(`${received.bytes} of ${declaredBytes} bytes arrived`) : null
  if (refusal) {
    await fs.promises.rm(temporary, { force: true })
    return err(refusal)
  }
  return ok({
    fileName: received.fileName,
    sizeBytes: (await fs.promises.stat(temporary)).size,
    fields: received.fields,
    bytes: () => fs.createReadStream(temporary),
    head: (bytes) => firstBytes(temporary, bytes),
    discard: () => fs.promises.rm(temporary, { force: true }),
  })
}

// A browser reads the answer only once it has sent everything, and waits long where nobody takes it.
async function drain(body: ReadableStream<Uint8Array>): Promise<void> {
  let drainedBytes = 0
  try {
    for await (const chunk of body) {
      drainedBytes += chunk.byteLength
      if (drainedBytes > DRAIN_LIMIT_BYTES) return
    }
  } catch {
    // the sender has gone, which is as well
  }
}

async function firstBytes(file: string, bytes: number): Promise<Uint8Array> {
  const handle = await fs.promises.open(file)
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(bytes), 0, bytes, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await handle.close()
  }
}

/** The fields beside the file against their schema. */
export const parseFields = <S extends z.ZodType>({ fields }: Upload, schema: S) => checked(fields, schema)

interface Received { fileName: string; fields: Record<string, string>; files: number; tooLarge: boolean; bytes: number }

async function receive(
  body: ReadableStream<Uint8Array>, type: string, temporary: string, limitBytes: number, into: Received,
): Promise<void> {
  const form = busboy({
    headers: { 'content-type': type }, defParamCharset: 'utf8',
    limits: { fileSize: limitBytes + 1, fieldSize: FIELD_LIMIT_BYTES, fields: 20 },
  })
  const source = Readable.fromWeb(body as Parameters<typeof Readable.fromWeb>[0])
  const writes: Promise<void>[] = []
  form.on('field', (name, value) => { into.fields[name] = value })
  form.on('file', (name, stream, { filename }) => {
    if (name !== 'file' || ++into.files > 1) return stream.resume()
    into.fileName = filename ?? 'file'
    stream.once('limit', () => { into.tooLarge = true }) // the rest is received and let fall, as drain() does
    const write = pipeline(stream, fs.createWriteStream(temporary, { mode: 0o600, flags: 'wx' }))
    write.catch((e: Error) => source.destroy(e))
    writes.push(write)
  })
  const counter = new Transform({
    transform(chunk: Uint8Array, _encoding, done) {
      into.bytes += chunk.byteLength
      done(into.bytes > DRAIN_LIMIT_BYTES ? new Error('far too large') : null, chunk)
    },
  })
  const [parsed] = await Promise.allSettled([pipeline(source, counter, form)])
  const written = await Promise.allSettled(writes)
  const failed = [parsed, ...written].find((r) => r.status === 'rejected')
  if (failed) throw failed.reason
}

const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(0)} MB`

const tooLarge = (limitBytes: number, declaredBytes?: number) => problem(413, {
  code: 'too-large',
  detail: `The file is larger than ${megabytes(limitBytes)}, the limit for uploads`
    + `${declaredBytes ? ` (${megabytes(declaredBytes)} were announced)` : ''}. Nothing of it was kept.`,
  remedy: 'Import it on the server with npm run import, which has no limit, or split the file.',
})

const cutShort = (how: string) => problem(400, {
  code: 'truncated', detail: withFullStop(`The upload did not arrive whole: ${how}`), remedy: 'Send the file again; nothing of it was kept.',
})

const noFile = (count: number) => problem(400, {
  code: 'no-file',
  detail: count === 0 ? 'The form has no field "file" with a file in it.' : `The form has ${count} files.`,
  remedy: 'Send one file in the field "file".',
})

const notAForm = () => problem(415, {
  code: 'not-a-form', detail: 'An upload is a multipart/form-data form with a field "file".', remedy: 'Send the file as such a form.',
})
