/** JSON that no cache between us and the caller may keep. */
export const json = (body: unknown, status = 200, headers: Record<string, string> = {}): Response =>
  Response.json(body, { status, headers: { 'Cache-Control': 'private, no-store', ...headers } })
