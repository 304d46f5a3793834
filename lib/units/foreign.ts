import { quantityOf, type Quantity } from './convert'
import { detectHeaderUnit, recogniseUnit } from './detect'

const PREFIX = '[pnuμmcdkMG]?'
/** Symbols of the SI (BIPM, SI brochure, 9th edition, tables 2, 4 and 8), which take prefixes, with R for ohm as instruments print it. */
const SYMBOL = '(?:Ω|[Oo]hms?|OHMS?|V|A|W|Wh|VA|VAr|var|Hz|g|s|m|K|N|Pa|J|C|F|H|S|T|Wb|lm|lx|cd|mol|bar|L|l|eV|R)'
const SI = new RegExp(`^${PREFIX}${SYMBOL}$`)
/** Products and quotients of units, such as µΩ/m and N·m. */
const COMPOUND = new RegExp(`^${PREFIX}${SYMBOL}[23²³]?(?:\\s*[/·*]\\s*${PREFIX}${SYMBOL}[23²³]?)+$`)
/** Other units that people write, in lower case; customary ones by NIST Handbook 44, appendix C. */
const WORDS = new Set([
  'yd', 'yds', 'yard', 'yards', 'lb', 'lbs', 'lbf', 'pound', 'pounds', 'oz', 'ounce', 'ounces', 'psi', 'ksi', 'kips', 'rod', 'rods', 'chain', 'chains',
  'furlong', 'furlongs', 'fathom', 'fathoms', 'nmi', 'mil', 'mils', 'kcmil', 'thou', 'acre', 'acres', 'gal', 'gallon', 'gallons', 'rankine', '°r', '°k', 'parsec',
  'kelvin', 'kelvins', 'gram', 'grams', 'gramme', 'kilogram', 'kilograms', 'tonne', 'tonnes', 'ton', 'tons', 'second', 'seconds', 'sec', 'minute', 'minutes',
  'hour', 'hours', 'hr', 'hrs', 'day', 'days', 'siemens', 'microsiemens', 'millisiemens', 'watt', 'watts', 'kilowatt', 'kilowatts', 'hertz', 'pascal', 'pascals',
  'newton', 'newtons', 'joule', 'joules', 'millivolt', 'millivolts', 'microvolt', 'microvolts', 'milliamp', 'milliamps', 'nanometre', 'nanometres', 'nanometer',
  'micron', 'microns', 'micrometre', 'micrometres', 'micrometer', 'micrometers', 'kiloohm', 'kilo-ohm', 'kiloohms', 'kilo-ohms', 'kilohm', 'kilohms', 'megohm',
  'megohms', 'megaohm', 'megaohms', 'mega-ohm', 'mega-ohms', 'nanoohm', 'nano-ohm', 'nano-ohms', 'nanoohms', 'kohms', 'bft', 'beaufort', 'rad', 'radian',
  'radians', 'grad', 'gon', 'gons', 'arcsec', 'arcmin', '%', 'percent', 'per cent', 'ppm', 'db',
])

/** One letter is a phase, a side or a position as often as a unit. */
const LETTERS = /^[ABCRSTNLF]$/i

/** 'Ambient (deg)' leaves the scale open; it does not say that an angle was measured. */
const OPEN_DEGREES = /^(?:°|deg|degrees?)$/i

const fold = (text: string): string => text.replace(/º/g, '°').normalize('NFKC').replace(/µ/g, 'μ').trim()

function isUnitOfSomethingElse(words: string, quantity: Quantity): boolean {
  const text = fold(words).replace(/^in\s+/i, '')
  if (text === '' || LETTERS.test(text) || (quantity === 'temperature' && OPEN_DEGREES.test(text))) return false
  if (recogniseUnit(text) !== null) return true
  return SI.test(text.replace(/[\s-]/g, '')) || COMPOUND.test(text) || WORDS.has(text.toLowerCase())
}

/**
 * The unit that a column's header names and that its field is not measured in: 'kΩ' of 'Conductor (kΩ)', 'mV' of 'Side A (mV)',
 * 'kg' of 'span, kg'. To read such a column by the field's own unit would be wrong by what nobody wrote.
 * Only what stands in brackets, behind a comma, or last and longer than a letter is asked.
 * @returns the unit as it is written; null where the header names one of the field's, or none
 */
export function foreignHeaderUnit(header: string, quantity: Quantity): string | null {
  if (detectHeaderUnit(header, quantity) !== null) return null
  const bracketed = [...header.matchAll(/[([{]([^)\]}]*)[)\]}]/g)].map((match) => match[1]!.trim())
  const plain = header.replace(/[([{][^)\]}]*[)\]}]/g, ' ').trim()
  const comma = /,\s*([^,]+)$/.exec(plain)?.[1]?.trim()
  const found = [...bracketed.reverse(), ...(comma === undefined ? [] : [comma])].find((words) => isUnitOfSomethingElse(words, quantity))
  if (found !== undefined) return found
  const last = /[\s_]([^\s_]{2,})$/.exec(plain)?.[1]
  return last !== undefined && isUnmistakable(last, quantity) ? last : null
}

/** A last word without brackets is a word first: only prefixed symbols and ohms are believed ('Conductor kΩ', 'side_a_mV', 'conductor_kohm'). */
function isUnmistakable(word: string, quantity: Quantity): boolean {
  const unit = recogniseUnit(word)
  if (unit !== null) return quantityOf(unit) !== quantity && /[Ωμ°]|ohm/i.test(fold(word))
  return /^(?:[nkMG]?(?:Ω|ohms?)|[nμumk]V|kg|yds?|lbs?|[a-z]+-?ohms?)$/i.test(fold(word))
}
