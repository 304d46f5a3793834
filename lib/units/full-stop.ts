/** A sentence with its full stop: words that somebody else wrote may have one already. */
export const withFullStop = (text: string): string => (/[.!?…]$/.test(text.trimEnd()) ? text.trimEnd() : `${text.trimEnd()}.`)
