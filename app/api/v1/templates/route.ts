import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { describeKind, IMPORT_KINDS, templateOf } from '@/lib/intake'

export const dynamic = 'force-dynamic'

/** The kinds of files there are, with the addresses of their template and of what is read of them. */
export const GET = reading(async () => json({
  items: IMPORT_KINDS.map((kind) => {
    const { label, description } = describeKind(kind)
    return { kind, label, description, template: `/api/v1/templates/${templateOf(kind).file}`, fields: `/api/v1/templates/${kind}.json` }
  }),
}))

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
