/** JSON that no cache between us and the caller may keep. */
export const json = (body: unknown, status = 200, headers: Record<string, string> = {}): Response =>
  Response.json(body, { status, headers: { 'Cache-Control': 'private, no-store', ...headers } })

/** A CSV file to keep under this name. */
export const csv = (fileName: string, body: BodyInit): Response => new Response(body, {
  headers: {
    'Content-Type': 'text/csv; charset=utf-8',
    'Content-Disposition': `attachment; filename="${fileName}"`,
    'Cache-Control': 'private, no-store',
  },
})
