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
    'Content-Disposition': toBeSaved(fileName),
    'Cache-Control': 'private, no-store',
  },
})

/** A name with other letters than ASCII is given twice, as RFC 6266, section 4.3 and appendix D, has it; percent signs as in RFC 8187. */
function toBeSaved(fileName: string): string {
  const plain = fileName.replace(/[^\x20-\x7e]|["\\%]/g, '_')
  const whole = encodeURIComponent(fileName.toWellFormed()).replace(/['()*]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`)
  return `attachment; filename="${plain}"${plain === fileName ? '' : `; filename*=UTF-8''${whole}`}`
}

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
