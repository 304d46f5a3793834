import { FORMATS } from './formats/index'
import { binaryRefusal } from './guards/binary'
import { guessEncoding } from './text/encoding'
import { peek } from './text/peek'
import { FileRefusal, type Table } from './types'

const SNIFF_BYTES = 64 * 1024

/**
 * Columns and rows of a file, by what its bytes look like; the name only breaks ties.
 * @throws FileRefusal empty, not-text, truncated, too-many-columns, no-header, not-json, unknown-format
 */
export async function openFile(bytes: AsyncIterable<Uint8Array>, fileName: string): Promise<Table> {
  const { head, all } = await peek(bytes, SNIFF_BYTES)
  const format = FORMATS.find((candidate) => candidate.sniff(head, fileName))
  if (format) return format.open(all)
  const refusal = binaryRefusal(head)
  if (refusal) throw refusal
  guessEncoding(head)
  throw new FileRefusal(
    'unknown-format', `'${fileName}' is none of the formats that are read: ${FORMATS.map((each) => each.label).join(', ')}.`,
    'Export it as CSV UTF-8 or GeoJSON.',
  )
}
