import { recogniseUnit } from '@/lib/units/detect'

/** Header without case, accents, blanks and punctuation: 'Str. No' and 'str_no' are one. */
export const compact = (header: string): string =>
  header.normalize('NFKD').replace(/[\u0300-\u036f]/g, '').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '')

/** What else people write for 'no'; never a part of a word. */
const NUMBER_WORDS = /#|(?<![a-z])(?:nbr|num|nr)(?![a-z])\.?/gi

/** A header's name with and without the unit it carries: 'R side A (µΩ)' is 'rsidea', 'wind_mph' is 'wind'. */
export function headerNames(header: string): { whole: string; base: string; bracketless: string; numbered: string } {
  const bracketless = header.replace(/[([{][^)\]}]*[)\]}]/g, ' ').replace(
    /,\s*[^,]*$/, (tail) => (recogniseUnit(tail.slice(1)) ? '' : tail)
  )
  const words = bracketless.trim().split(/[\s_/-]+/).filter((word) => word !== '')
  let end = words.length
  if (end >= 3 && recogniseUnit(`${words[end - 2]}/${words[end - 1]}`)) end -= 2
  else if (end >= 2 && recogniseUnit(words[end - 1]!)) end -= 1
  return { whole: compact(header), base: compact(words.slice(0, end).join(' ')), bracketless: compact(bracketless), numbered: compact(header.replace(NUMBER_WORDS, ' no ')) }
}
