/** JSON that no cache between us and the caller may keep. */
export const json = (body: unknown, status = 200, headers: Record<string, string> = {}): Response =>
  Response.json(body, { status, headers: { 'Cache-Control': 'private, no-store', ...headers } })

/** A CSV file to keep under this name. */
export const csv = (fileName: string, body: BodyInit): Response => toKeep(fileName, 'text/csv; charset=utf-8', body)

/** A GeoJSON file to keep under this name. */
export const geojson = (fileName: string, body: BodyInit): Response => toKeep(fileName, 'application/geo+json', body)

const toKeep = (fileName: string, type: string, body: BodyInit): Response => new Response(body, {
  headers: {
    'Content-Type': type,
    'Content-Disposition': `attachment; filename="${fileName}"`,
    'Cache-Control': 'private, no-store',
  },
})
