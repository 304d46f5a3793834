import { FileRefusal } from '../types'

/** First bytes of files that people drop by mistake, with what to do instead. */
const SIGNATURES: readonly { bytes: readonly number[]; what: string; remedy: string }[] = [
  {
    bytes: [0x50, 0x4b, 0x03, 0x04], what: 'a workbook or a zip archive',
    remedy: 'Save the sheet as CSV UTF-8, or unpack the archive, and drop that file.',
  },
  { bytes: [0xd0, 0xcf, 0x11, 0xe0], what: 'an old workbook or document', remedy: 'Save the sheet as CSV UTF-8 and drop that file.' },
  { bytes: [0x25, 0x50, 0x44, 0x46], what: 'a PDF', remedy: 'Ask for the table behind it as CSV.' },
  { bytes: [0x89, 0x50, 0x4e, 0x47], what: 'a PNG picture', remedy: 'Drop the table of readings, as CSV or GeoJSON.' },
  { bytes: [0xff, 0xd8, 0xff], what: 'a JPEG picture', remedy: 'Drop the table of readings, as CSV or GeoJSON.' },
  { bytes: [0x1f, 0x8b], what: 'a gzip archive', remedy: 'Unpack it and drop the file inside.' },
  { bytes: [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65], what: 'a database file', remedy: 'Export the table as CSV or GeoJSON.' },
]

/** Names the file that these first bytes belong to where it is none of text; null where they may be text. */
export function binaryRefusal(head: Uint8Array): FileRefusal | null {
  const known = SIGNATURES.find((signature) => signature.bytes.every((byte, at) => head[at] === byte))
  if (known) return new FileRefusal('not-text', `The file is ${known.what}, not a text file.`, known.remedy)
  return null
}

export const nulRefusal = (): FileRefusal =>
  new FileRefusal(
    'not-text', 'The file holds zero bytes, so it is not a text file.', 'Export the table as CSV UTF-8 or GeoJSON and drop that file.'
  )
