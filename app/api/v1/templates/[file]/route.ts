import { caught } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { NO_QUERY, parseQuery } from '@/app/api/http/parse'
import { problem } from '@/app/api/http/problem'
import { csv, geojson, json } from '@/app/api/http/respond'
import { describeKind, IMPORT_KINDS, templateOf } from '@/lib/intake'

export const dynamic = 'force-dynamic'

/** One kind of file: KIND.csv (lines.geojson) is empty, for people to fill; KIND.json says what each column means and takes. */
export const GET = caught(async (request, { params }) => {
  const query = parseQuery(request, NO_QUERY)
  if (!query.ok) return query.error
  const { file = '' } = await params
  const template = IMPORT_KINDS.map(templateOf).find((each) => each.file === file)
  if (template) return file.endsWith('.csv') ? csv(file, template.text) : geojson(file, template.text)
  const jsonKind = IMPORT_KINDS.find((kind) => file === `${kind}.json`)
  return jsonKind ? json(describeKind(jsonKind)) : problem(404, {
    code: 'no-such-template',
    detail: `There is no template ${file}.`,
    remedy: `To fill there are ${IMPORT_KINDS.map((kind) => templateOf(kind).file).join(', ')}; KIND.json says what each takes. Lines are GeoJSON only.`,
  })
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
