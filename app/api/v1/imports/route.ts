import type { z } from 'zod'
import { caseProblem } from '@/app/api/http/case-problem'
import { changing, reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { parseFields, receiveUpload } from '@/app/api/http/upload'
import { receiveFile } from '@/lib/cases/receive-file'
import { importsQuery, UPLOAD_LIMIT_BYTES, uploadFields } from '@/lib/contract/api'
import { importAsOfNow } from '@/lib/store/import-as-of-now'
import { listImports } from '@/lib/store/imports'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => json(await listImports(scope, importsOf(query))), importsQuery)

const importsOf = ({ dry_run: dryRun, ...page }: z.infer<typeof importsQuery>) => ({ ...page, dryRun: dryRun === undefined ? undefined : dryRun === '1' })

/** Takes a file and queues its import: 202, or 200 with what was imported when the same file came before. */
export const POST = changing(async (request, { scope, actor }) => {
  const upload = await receiveUpload(request)
  if (!upload.ok) return upload.error
  const { fileName, sizeBytes, bytes, discard } = upload.value
  try {
    const fields = parseFields(upload.value, uploadFields)
    if (!fields.ok) return fields.error
    const { kind, survey, mapping, dry_run: dryRun } = fields.value
    const file = {
      fileName, kind, survey, mapping, dryRun: dryRun === '1', actor, declaredBytes: sizeBytes, limitBytes: UPLOAD_LIMIT_BYTES,
    }
    const received = await receiveFile(scope, file, bytes())
    if (!received.ok) return caseProblem(received.error)
    const { importId, again } = received.value
    return json(await importAsOfNow(scope, importId), again ? 200 : 202, { Location: `/api/v1/imports/${importId}` })
  } finally {
    await discard()
  }
})

export const { PUT, PATCH, DELETE, OPTIONS } = others('GET', 'POST')
