import { caught } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { NO_QUERY, parseQuery } from '@/app/api/http/parse'
import { problem } from '@/app/api/http/problem'
import { csv, json } from '@/app/api/http/respond'
import { describeKind, IMPORT_KINDS, templateCsv } from '@/lib/intake'

export const dynamic = 'force-dynamic'

/** One kind of file: KIND.csv is empty under its columns, for people to fill; KIND.json says what each column means and takes. */
export const GET = caught(async (request, { params }) => {
  const query = parseQuery(request, NO_QUERY)
  if (!query.ok) return query.error
  const { file = '' } = await params
  const csvKind = IMPORT_KINDS.find((kind) => file === `${kind}.csv`)
  if (csvKind) return csv(file, templateCsv(csvKind))
  const jsonKind = IMPORT_KINDS.find((kind) => file === `${kind}.json`)
  return jsonKind ? json(describeKind(jsonKind)) : problem(404, {
    code: 'no-such-template',
    detail: `There is no template ${file}.`,
    remedy: `There are ${IMPORT_KINDS.join(', ')}, each as KIND.csv to fill and KIND.json to read about.`,
  })
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
