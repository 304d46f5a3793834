import { caught } from '@/app/api/http/handler'
import { problem } from '@/app/api/http/problem'
import { csv } from '@/app/api/http/respond'
import { IMPORT_KINDS, templateCsv } from '@/lib/intake'

export const dynamic = 'force-dynamic'

/** An empty file with the columns of one kind, for people to fill. */
export const GET = caught(async (_request, { params }) => {
  const { file } = await params
  const kind = IMPORT_KINDS.find((name) => file === `${name}.csv`)
  if (!kind) {
    return problem(404, {
      code: 'no-such-template',
      detail: `There is no template ${file}.`,
      remedy: `There are: ${IMPORT_KINDS.map((name) => `${name}.csv`).join(', ')}.`,
    })
  }
  return csv(`${kind}.csv`, templateCsv(kind))
})
