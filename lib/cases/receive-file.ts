import type { ImportKind, Mapping } from '@/lib/intake'
import { ok, type Result } from '@/lib/result/result'
import { CHUNK_BYTES, writeChunk } from '@/lib/store/import-file'
import { failImport, insertImport, queueImport, removeImport, sameImport } from '@/lib/store/imports'
import { enqueueJob } from '@/lib/store/jobs'
import type { Scope } from '@/lib/store/scope'
import { inTransaction } from '@/lib/store/transaction'
import { ImportIdentity } from './import-identity'
import { outOfScope, refuse, type CaseError } from './problem'

export interface FileToReceive {
  fileName: string
  kind: ImportKind
  /** For rows that name no survey; null: the file's name. */
  survey?: string | null
  /** As a person confirmed it; null: guessed. */
  mapping?: Mapping | null
  /** Everything is done but the commit. */
  dryRun?: boolean
  actor: string
  /** What the sender said it would send; a different count is refused. */
  declaredBytes?: number
  limitBytes: number
}

export interface ReceivedFile {
  importId: number
  /** True where the same file was imported before: that import stands for this one. */
  again: boolean
}

/** Takes a file piece by piece and queues its import. Nothing is parsed before all of it is here; nothing is left of a file that did not arrive whole. */
export async function receiveFile(scope: Scope, file: FileToReceive, bytes: AsyncIterable<Uint8Array>): Promise<Result<ReceivedFile, CaseError>> {
  if ((file.declaredBytes ?? 0) > file.limitBytes) return tooLarge(file.limitBytes)
  const { kind, fileName, actor } = file
  const surveyName = file.survey?.trim() || null
  const mapping = file.mapping ?? null
  const id = await insertImport(scope, { kind, fileName, surveyName, mapping, dryRun: file.dryRun ?? false, actor, known: null })
  if (id === undefined) return outOfScope()
  try {
    const identity = new ImportIdentity()
    if (!await store(scope, id, bytes, identity, file.limitBytes)) return await given(scope, id, tooLarge(file.limitBytes))
    const { sizeBytes } = identity
    if (sizeBytes === 0) return await given(scope, id, refuse('empty', `${fileName} is empty.`, 'Choose a file with rows.'))
    if (file.declaredBytes !== undefined && sizeBytes !== file.declaredBytes) {
      return await given(scope, id, refuse('not-whole', `${sizeBytes} of ${file.declaredBytes} bytes of ${fileName} arrived.`, 'Send the file again.'))
    }
    const sha256 = identity.end(kind, surveyName, mapping)
    const same = file.dryRun ? undefined : await sameImport(scope, sha256, id, 'done or queued')
    if (same !== undefined) return await given(scope, id, ok({ importId: same, again: true }))
    await inTransaction(async (tx) => {
      await queueImport(scope, id, sha256, sizeBytes, tx)
      await enqueueJob(scope, { kind: 'import', importId: id }, tx)
    })
    return ok({ importId: id, again: false })
  } catch (e) {
    await failImport(scope, id, 'The file did not arrive whole. Send it again.')
    throw e
  }
}

/** Writes the bytes in pieces of 1 MiB. False where they are more than the limit. */
async function store(scope: Scope, id: number, bytes: AsyncIterable<Uint8Array>, identity: ImportIdentity, limitBytes: number): Promise<boolean> {
  let seq = 0
  let waiting: Uint8Array[] = []
  let size = 0
  for await (const piece of bytes) {
    identity.add(piece)
    if (identity.sizeBytes > limitBytes) return false
    waiting.push(piece)
    size += piece.byteLength
    if (size < CHUNK_BYTES) continue
    await writeChunk(scope, id, seq++, Buffer.concat(waiting))
    waiting = []
    size = 0
  }
  if (size > 0) await writeChunk(scope, id, seq, Buffer.concat(waiting))
  return true
}

/** Ends a reception that came to nothing. */
async function given<T>(scope: Scope, id: number, outcome: T): Promise<T> {
  await removeImport(scope, id)
  return outcome
}

const tooLarge = (limitBytes: number): Result<never, CaseError> => refuse(
  'too-large', `The file is larger than the limit of ${Math.round(limitBytes / 1e6)} MB for files sent by the web.`,
  'Split the file, or have it read on the server with npm run import, which has no limit.')
