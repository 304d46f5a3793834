import { openApiDocument } from './document'
import { others } from '@/app/api/http/others'

export const dynamic = 'force-dynamic'

let document: string | undefined

export function GET(): Response {
  document ??= JSON.stringify(openApiDocument())
  return new Response(document, { headers: { 'Content-Type': 'application/json', 'Cache-Control': 'public, max-age=300' } })
}

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
