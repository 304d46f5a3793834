import { readingOne } from '@/app/api/http/handler'
import { notFound } from '@/app/api/http/problem'
import { csv } from '@/app/api/http/respond'
import { rejectedCsv, type RowIssue } from '@/lib/intake'
import type { Scope } from '@/lib/store/scope'
import { rejectedRows } from '@/lib/store/import-issues'
import { importToRun } from '@/lib/store/imports'
import { database } from '@/lib/store/transaction'

export const dynamic = 'force-dynamic'

/** The rejected rows under the file's own columns with what is wrong with each, to correct and send again. */
export const GET = readingOne('import', async (_request, { scope }, id) => {
  const found = await importToRun(scope, id, database())
  if (!found) return notFound('import')
  return csv(`rejected-${id}.csv`, streamOf(rejectedCsv(found.header ?? [], issuesOf(scope, id))))
})

async function* issuesOf(scope: Scope, id: number): AsyncGenerator<RowIssue> {
  for await (const { field, value, raw, ...issue } of rejectedRows(scope, id)) {
    yield { ...issue, field: field ?? undefined, value: value ?? undefined, raw: raw ?? undefined }
  }
}

function streamOf(lines: AsyncGenerator<string>): ReadableStream<Uint8Array> {
  return new ReadableStream<string>({
    pull: async (controller) => {
      const { done, value } = await lines.next()
      if (done) controller.close()
      else controller.enqueue(value)
    },
    cancel: async () => {
      await lines.return(undefined)
    },
  }).pipeThrough(new TextEncoderStream())
}
