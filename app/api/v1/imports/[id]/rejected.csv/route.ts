import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { csv } from '@/app/api/http/respond'
import { rejectedRowsCsv } from '@/lib/cases/rejected-rows-csv'

export const dynamic = 'force-dynamic'

/** The rejected rows under the file's own columns with what is wrong with each, to correct and send again. */
export const GET = readingOne('import', async (_request, { scope }, id) => {
  const lines = await rejectedRowsCsv(scope, id)
  return lines ? csv(`rejected-${id}.csv`, streamOf(lines)) : notFound('import')
})

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

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
