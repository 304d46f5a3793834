import { openApiDocument } from './document'

export const dynamic = 'force-dynamic'

let document: string | undefined

export function GET(): Response {
  document ??= JSON.stringify(openApiDocument())
  return new Response(document, { headers: { 'Content-Type': 'application/json', 'Cache-Control': 'public, max-age=300' } })
}
