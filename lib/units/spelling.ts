import type { UnitSystem } from './format'

/** British beginnings of words as this product writes them, and what a US utility reads instead; a longer one stands before its own beginning. */
const SPELLINGS: readonly (readonly [british: string, american: string])[] = [
  ['kilometre', 'kilometer'], ['millimetre', 'millimeter'], ['metre', 'meter'],
  ['centred', 'centered'], ['centring', 'centering'], ['centre', 'center'],
  ['discolour', 'discolor'], ['colour', 'color'], ['grey', 'gray'], ['aluminium', 'aluminum'], ['ageing', 'aging'],
  ['energis', 'energiz'], ['recognis', 'recogniz'], ['organis', 'organiz'], ['authoris', 'authoriz'], ['summaris', 'summariz'],
  ['earthed', 'grounded'], ['earthing', 'grounding'], ['cancelled', 'canceled'], ['labelled', 'labeled'],
  ['catalogue', 'catalog'], ['licence', 'license'], ['neighbour', 'neighbor'], ['behaviour', 'behavior'],
  ['half-way', 'halfway'], ['per cent', 'percent'],
]

const AMERICAN = new Map(SPELLINGS)
/** What a file or a person wrote stands in quotes or with an underscore and keeps its letters. */
const WORD = new RegExp(`(?<!\\w)'[^']*'(?!\\w)|"[^"]*"|“[^”]*”|\\w*_\\w*|\\b(?:${SPELLINGS.map(([british]) => british).join('|')})`, 'gi')

/**
 * A sentence of this product in the reader's spelling: as it is written, or as a US utility writes it. A capital within a
 * sentence begins a name ('Centre Hall 230'), which keeps its letters.
 */
export const spell = (text: string, system: UnitSystem): string => (system === 'us' ? text.replace(WORD, american) : text)

function american(word: string, at: number, text: string): string {
  const found = AMERICAN.get(word.toLowerCase())
  if (found === undefined) return word
  if (word[0] === word[0]?.toLowerCase()) return found
  return /(^|[.:?!]\s+)$/.test(text.slice(0, at)) ? found.charAt(0).toUpperCase() + found.slice(1) : word
}
