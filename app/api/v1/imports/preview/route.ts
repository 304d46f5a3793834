import { changing } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { parseFields, receiveUpload } from '@/app/api/http/upload'
import { PREVIEW_BYTES, previewFile } from '@/lib/cases/preview-file'
import { previewFields } from '@/lib/contract/api'

export const dynamic = 'force-dynamic'

/** What the first rows of a file would become. Nothing is stored; the head of the file is enough, and no more of it is looked at. */
export const POST = changing(async (request, { scope }) => {
  const upload = await receiveUpload(request)
  if (!upload.ok) return upload.error
  try {
    const fields = parseFields(upload.value, previewFields)
    if (!fields.ok) return fields.error
    const { file_name: fileName = upload.value.fileName, kind, mapping, fresh } = fields.value
    return json(await previewFile(scope, { fileName, kind, mapping, survey: mapping?.survey, fresh: fresh === '1' }, await upload.value.head(PREVIEW_BYTES)))
  } finally {
    await upload.value.discard()
  }
})

export const { GET, PUT, PATCH, DELETE, OPTIONS } = others('POST')
