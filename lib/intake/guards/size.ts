import { FileRefusal } from '../types'

/** Largest file by the web, bytes. The command has no limit. */
export const WEB_FILE_LIMIT_BYTES = 100_000_000

const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6).toLocaleString('en-US')} MB`

const tooLarge = (limitBytes: number, had: string): FileRefusal => new FileRefusal(
  'too-large',
  `The file ${had} more than the limit of ${megabytes(limitBytes)} for files sent by the web.`,
  'Split the file, or have it read on the server with npm run import, which has no limit.',
)

/** Refuses by the size a client declares, before a byte of it is read. @throws FileRefusal too-large */
export function checkDeclaredSize(sizeBytes: number, limitBytes = WEB_FILE_LIMIT_BYTES): void {
  if (sizeBytes > limitBytes) throw tooLarge(limitBytes, `has ${megabytes(sizeBytes)},`)
}

/** Passes bytes on and counts them, for clients that declare nothing or lie. @throws FileRefusal too-large */
export async function* limitSize(bytes: AsyncIterable<Uint8Array>, limitBytes = WEB_FILE_LIMIT_BYTES): AsyncGenerator<Uint8Array> {
  let count = 0
  for await (const chunk of bytes) {
    count += chunk.length
    if (count > limitBytes) throw tooLarge(limitBytes, 'has')
    yield chunk
  }
}
