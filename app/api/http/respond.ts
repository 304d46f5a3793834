/** JSON that no cache between us and the caller may keep. */
export const json = (body: unknown, status = 200, headers: Record<string, string> = {}): Response =>
  Response.json(body, { status, headers: { 'Cache-Control': 'private, no-store', ...headers } })

/** A CSV file to keep under this name. */
export const csv = (fileName: string, body: BodyInit): Response => toKeep(fileName, 'text/csv; charset=utf-8', body)

/** A GeoJSON file to keep under this name. */
export const geojson = (fileName: string, body: BodyInit): Response => toKeep(fileName, 'application/geo+json', body)

/** A file of any kind to keep under this name. */
export const toKeep = (fileName: string, type: string, body: BodyInit): Response => new Response(body, {
  headers: {
    'Content-Type': type,
    'Content-Disposition': `attachment; filename="${fileName}"`,
    'Cache-Control': 'private, no-store',
  },
})

const CHUNK_CHARS = 32_768

/** Text as a body that is made while it is sent: a long one needs no memory, and one that nobody waits for any more is broken off. */
export function streamOf(parts: AsyncGenerator<string>): ReadableStream<Uint8Array> {
  return new ReadableStream<string>({
    pull: async (controller) => {
      // Line by line would cost more than the lines.
      let text = ''
      while (text.length < CHUNK_CHARS) {
        const { done, value } = await parts.next()
        if (done) {
          if (text !== '') controller.enqueue(text)
          return controller.close()
        }
        text += value
      }
      controller.enqueue(text)
    },
    cancel: async () => {
      await parts.return(undefined)
    },
  }).pipeThrough(new TextEncoderStream())
}
