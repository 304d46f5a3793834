import { quantityOf, type Quantity, type Unit } from './convert'

/**
 * Spellings after Unicode folding (NFKC turns the micro sign U+00B5 into U+03BC and the ohm sign U+2126 into U+03A9)
 * and without blanks, dots and hyphens (so that m·s⁻¹ is 'ms1'). Lower case, but for the prefix that tells milli from mega.
 */
const SPELLINGS: Record<Unit, readonly string[]> = {
  uohm: ['μω', 'uω', 'μohm', 'μohms', 'uohm', 'uohms', 'microohm', 'microohms', 'microhm', 'microhms', 'microω', 'micohm', 'micohms', 'mcω', 'mcohm', 'mcohms', 'μr'],
  mohm: ['mω', 'mohm', 'mohms', 'milliohm', 'milliohms', 'milliω'],
  ohm: ['ω', 'ohm', 'ohms'],
  c: ['°c', 'degc', 'degreec', 'degreesc', 'celsius', 'degreescelsius', 'centigrade', 'c'],
  f: ['°f', 'degf', 'degreef', 'degreesf', 'fahrenheit', 'degreesfahrenheit', 'f'],
  m_s: ['m/s', 'mps', 'ms1', 'm_s', 'metrespersecond', 'meterspersecond'],
  km_h: ['km/h', 'kmh', 'kph', 'km/hr', 'km_h', 'kmph'],
  mph: ['mph', 'mi/h', 'mi/hr', 'milesperhour'],
  kn: ['kn', 'kt', 'kts', 'knot', 'knots'],
  ft_s: ['ft/s', 'fps', 'ft_s', 'ft/sec', 'feetpersecond'],
  m: ['m', 'metre', 'metres', 'meter', 'meters'],
  mm: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
  cm: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
  km: ['km', 'kilometre', 'kilometres', 'kilometer', 'kilometers'],
  ft: ['ft', 'feet', 'foot', '\'', '′', '’'],
  in: ['in', 'inch', 'inches', '"', '″', '”'],
  mi: ['mi', 'mile', 'miles'],
  a: ['a', 'amp', 'amps', 'ampere', 'amperes'],
  ka: ['ka', 'kiloamp', 'kiloamps', 'kiloampere', 'kiloamperes'],
  v: ['v', 'volt', 'volts'],
  kv: ['kv', 'kilovolt', 'kilovolts'],
  deg: ['°', 'deg', 'degree', 'degrees'],
  mrad: ['mrad', 'milliradian', 'milliradians'],
  ft_station: ['ftstation', 'feetstation', 'stationft', 'stationfeet', 'sta', 'ft_station'],
}

const UNIT_BY_SPELLING = new Map<string, Unit>(
  (Object.entries(SPELLINGS) as [Unit, readonly string[]][]).flatMap(([unit, spellings]) => spellings.map((s) => [s, unit] as const)),
)

/** Words that mean something else in most headers ('Side A', 'Phase C', 'cut in'): believed only in brackets or for their own quantity. */
const DOUBTFUL = new Set(['a', 'c', 'f', 'm', 'v', 'in', 'mi', 'sta', 'deg', 'degree', 'degrees', 'foot', '\'', '’', '"', '”', 'mm', 'kt'])

/** The ordinal º is typed for the degree sign; folding would make a letter o of it. */
const fold = (text: string): string => text.replace(/º/g, '°').normalize('NFKC').trim()

/** MΩ is megohm: a splice never measures that, and it must not be read as mΩ. */
const isMega = (folded: string): boolean => /^M(\s*Ω|\s*ohm)/.test(folded)

/**
 * The unit that a spelling stands for: 'µΩ' with either micro sign, 'micro-ohm', 'mΩ', '°F', 'mph', 'kn', 'ft'.
 * Null where the spelling is not known, and for MΩ.
 */
export function recogniseUnit(text: string): Unit | null {
  const folded = fold(text)
  if (folded === '' || isMega(folded)) return null
  const plain = folded.toLowerCase().replace(/[\s.\-‐‑–−·]/g, '')
  return UNIT_BY_SPELLING.get(plain) ?? UNIT_BY_SPELLING.get(folded.toLowerCase()) ?? null
}

const spellingIsDoubtful = (text: string): boolean => DOUBTFUL.has(fold(text).toLowerCase())

const fits = (unit: Unit, quantity: Quantity | undefined): boolean =>
  quantity === undefined || quantityOf(unit) === quantity || (quantity === 'line-distance' && quantityOf(unit) === 'length')

/** A unit that a header names, and the header without it. */
export interface HeaderUnit {
  unit: Unit
  rest: string
}

const WORD = String.raw`[^\s_/-]+`
const GAP = String.raw`[\s_/-]+`
const LAST_TWO = new RegExp(`^(?:(.*?)${GAP})?(${WORD}${GAP}${WORD})$`)
const LAST = new RegExp(`^(?:(.*?)${GAP})?(${WORD})$`)
const FIRST_TWO = new RegExp(`^(${WORD}${GAP}${WORD})${GAP}(.+)$`)
const FIRST = new RegExp(`^(${WORD})${GAP}(.+)$`)
const BRACKETS = /[([{]([^)\]}]*)[)\]}]/g
const MEGA = /(^|[^a-z])(M|mega|MEGA|Mega)[\s_-]?(Ω|ohms?|Ohms?|OHMS?)\b/u

/** Where a header may say its unit, the surest first: in brackets, behind a comma, in its last two words ('micro-ohm'), its last, its first. */
function* unitPlaces(text: string): Generator<{ words: string; rest: string; how: 'bracket' | 'tail' | 'lead' }> {
  const plain = text.replace(BRACKETS, ' ').replace(/\s+/g, ' ').trim()
  const bracketed = [...text.matchAll(BRACKETS)].map((match) => match[1] ?? '').reverse()
  for (const words of bracketed) yield { words: words.replace(/^in\s+/i, ''), rest: plain, how: 'bracket' }
  const comma = /^(.*),\s*([^,]+)$/.exec(plain)
  if (comma) yield { words: comma[2]!, rest: comma[1]!, how: 'tail' }
  for (const pattern of [LAST_TWO, LAST]) {
    const match = pattern.exec(plain)
    if (match) yield { words: match[2]!, rest: match[1] ?? '', how: 'tail' }
  }
  for (const pattern of [FIRST_TWO, FIRST]) {
    const match = pattern.exec(plain)
    if (match) yield { words: match[1]!, rest: match[2]!, how: 'lead' }
  }
}

/** 'micro_ohm' and 'm s' are parted by what parts words; 'm/s' keeps its slash. */
const unitOfWords = (words: string): Unit | null =>
  recogniseUnit(words) ?? recogniseUnit(words.replace(/[_\s-]+/g, ' ')) ?? recogniseUnit(words.replace(/[_\s]+/g, '/'))

/**
 * The unit that a column's header speaks in, with the header without it: 'Side A (µΩ)', 'A micro-ohm', 'Wind [mph]', 'Ambient, °F',
 * 'span_ft', 'uohm side A'.
 * @param quantity what the field measures, where the mapping knows it: 'line_current_a' is amperes only for a current,
 *   and 'side_a' is never amperes. Without it only spellings that mean nothing else are believed.
 * @returns null where the header names no unit, or one of another quantity, or megohm.
 */
export function headerUnit(header: string, quantity?: Quantity): HeaderUnit | null {
  const text = fold(header)
  if (MEGA.test(text)) return null
  for (const { words, rest, how } of unitPlaces(text)) {
    const unit = unitOfWords(words)
    const isBelieved = how === 'bracket' || !spellingIsDoubtful(words) || (how === 'tail' && quantity !== undefined)
    if (unit && fits(unit, quantity) && isBelieved) return { unit, rest }
  }
  return null
}

/** The unit alone of `headerUnit`. */
export const detectHeaderUnit = (header: string, quantity?: Quantity): Unit | null => headerUnit(header, quantity)?.unit ?? null

/** A cell split into its number, as text for the reader of decimal marks, and its unit. */
export interface CellParts {
  numberText: string
  unit: Unit | null
  /** What stood behind the number and is no unit we know. */
  unknownUnit: string | null
}

/**
 * '12.3 mΩ' is the number '12.3' in mΩ; '12,3' stays a number without unit; '12 parsec' names the unit we do not know.
 * Null where the cell does not begin with a number. Feet stations keep their text: '12+34.5' with unit ft_station.
 */
export function splitCell(cell: string): CellParts | null {
  const text = fold(cell).replace(/^−/, '-')
  if (/^-?\d+\+\d{2}(\.\d+)?$/.test(text)) return { numberText: text, unit: 'ft_station', unknownUnit: null }
  const match = /^([+-]?(?:\d[\d\s.,]*|[.,]\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/.exec(text)
  if (!match) return null
  const numberText = (match[1] ?? '').trim()
  const rest = (match[2] ?? '').trim()
  if (rest === '') return { numberText, unit: null, unknownUnit: null }
  const unit = recogniseUnit(rest)
  return { numberText, unit, unknownUnit: unit ? null : rest }
}
