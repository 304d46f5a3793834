/** All that XML 1.0 (5th edition, 2.2) does not allow as a character, lone halves of a pair included. */
const NO_CHARACTER = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu
const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', '\'': '&apos;' }

/** Text for an element or an attribute. What XML has no character for becomes the sign for that. */
export const xmlText = (text: string): string => text.replace(NO_CHARACTER, '\uFFFD').replace(/[&<>"']/g, (sign) => ENTITIES[sign] ?? sign)

/** An element with text in it. */
export const element = (name: string, text: string): string => `<${name}>${xmlText(text)}</${name}>`
