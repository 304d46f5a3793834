import { guessEncoding } from './encoding'

/** First bytes as text for sniffing, without the byte order mark; null where they are no text. */
export function headText(head: Uint8Array): string | null {
  try {
    const { encoding, bomBytes } = guessEncoding(head)
    return new TextDecoder(encoding).decode(head.subarray(bomBytes))
  } catch {
    return null
  }
}
