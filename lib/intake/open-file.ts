import { FORMATS } from './formats/index'
import { guessEncoding } from './text/encoding'
import { peek } from './text/peek'
import { FileRefusal, type Table } from './types'

const SNIFF_BYTES = 64 * 1024

/**
 * Columns and rows of a file, by what its bytes look like; the name only breaks ties. The stream is closed when the rows
 * are used up or left, and when the file is refused.
 * @throws FileRefusal empty, not-text, truncated, too-many-columns, no-header, not-json, unknown-format
 */
export async function openFile(bytes: AsyncIterable<Uint8Array>, fileName: string): Promise<Table> {
  const source = bytes[Symbol.asyncIterator]()
  try {
    const { head, all } = await peek({ [Symbol.asyncIterator]: () => source }, SNIFF_BYTES)
    const format = FORMATS.find((candidate) => candidate.sniff(head, fileName))
    if (!format) throw refusalOf(head, fileName)
    return await format.open(all)
  } catch (failure) {
    await source.return?.()
    throw failure
  }
}

function refusalOf(head: Uint8Array, fileName: string): FileRefusal {
  try {
    guessEncoding(head)
  } catch (refusal) {
    if (refusal instanceof FileRefusal) return refusal
    throw refusal
  }
  return new FileRefusal(
    'unknown-format', `'${fileName}' is none of the formats that are read: ${FORMATS.map((each) => each.label).join(', ')}.`,
    'Export it as CSV UTF-8 or GeoJSON.',
  )
}
