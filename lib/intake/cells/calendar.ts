import type { DateOrder } from '../types'

/** A date as written, with its time of day and offset where it has them. */
export interface WrittenMoment {
  year: number
  month: number
  day: number
  /** Milliseconds since midnight; null where the text is a date alone. */
  dayMs: number | null
  /** Minutes east of Greenwich; null where the text names none. */
  offsetMin: number | null
  /** The text could be read month first or day first, and one of them was assumed. */
  assumedOrder: boolean
}

/** Why a text is no date: the reader turns it into a sentence. */
export type DateTrouble = 'not-a-date' | 'no-such-day' | 'unknown-zone' | 'other-order'

const ISO = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s?(Z|[+-]\d{2}(?::?\d{2})?)?)?$/i
const COMPACT = /^(\d{4})(\d{2})(\d{2})(?:[T ]?(\d{2})(\d{2})(\d{2})?(Z|[+-]\d{2}(?::?\d{2})?)?)?$/i
const TIME = /(?:^|[T,\s])\s*(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*([ap])?\.?(?:m\.?)?\s*(Z|UTC|GMT|[+-]\d{2}(?::?\d{2})?|[A-Z]{2,5})?$/i
const NUMERIC = /^(\d{1,4})([/.-])(\d{1,2})[/.-](\d{1,4})$/
const DAY_FIRST_WORD = /^(?:[a-z]{2,9}\.?,?\s+)?(\d{1,2})(?:st|nd|rd|th)?[\s.-]*([a-z]{3,9})\.?[\s,.-]*(\d{4}|\d{2})$/i
const MONTH_FIRST_WORD = /^(?:[a-z]{2,9}\.?,?\s+)?([a-z]{3,9})\.?[\s-]+(\d{1,2})(?:st|nd|rd|th)?[\s,-]+(\d{4}|\d{2})$/i
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']

const MAX_CHARS = 48

const fullYear = (text: string): number => (text.length > 2 ? Number(text) : Number(text) + (Number(text) < 70 ? 2000 : 1900))

function offsetMinutes(text: string | undefined): number | null {
  if (!text) return null
  if (/^(z|utc|gmt)$/i.test(text)) return 0
  const minutes = Number(text.slice(1, 3)) * 60 + Number(text.slice(3).replace(':', '') || 0)
  return text.startsWith('-') ? -minutes : minutes
}

function clockMs(hour: string, minute: string, second = '0', fraction = '', half?: string): number | null {
  let hours = Number(hour)
  if (half) {
    if (hours < 1 || hours > 12) return null
    hours = (hours % 12) + (half.toLowerCase() === 'p' ? 12 : 0)
  }
  if (hours > 24 || Number(minute) > 59 || Number(second) > 60) return null
  const ms = (hours * 3600 + Number(minute) * 60 + Number(second)) * 1000 + Number(fraction.slice(0, 3).padEnd(3, '0'))
  return ms > 86_400_000 ? null : ms
}

function checked(
  year: number, month: number, day: number, dayMs: number | null, offsetMin: number | null, assumedOrder = false
): WrittenMoment | DateTrouble {
  if (month < 1 || month > 12 || day < 1 || day > new Date(Date.UTC(year, month, 0)).getUTCDate()) return 'no-such-day'
  return { year, month, day, dayMs, offsetMin, assumedOrder }
}

/**
 * ISO 8601 and the forms that logs and spreadsheets write: 3/4/2026 9:26 AM, 04.03.2026 09:26, 4 May 2026, May 4, 2026, 20260504T0926.
 * @param order how two small numbers read; null: nobody knows, so month first is assumed and said
 */
export function parseMoment(text: string, order: DateOrder | null): WrittenMoment | DateTrouble {
  if (text.length > MAX_CHARS) return 'not-a-date'
  const iso = ISO.exec(text) ?? COMPACT.exec(text)
  if (iso) {
    const compact = iso.length === 8
    const dayMs = iso[4] === undefined ? null : clockMs(iso[4], iso[5]!, iso[6], compact ? '' : iso[7])
    if (iso[4] !== undefined && dayMs === null) return 'no-such-day'
    return checked(Number(iso[1]), Number(iso[2]), Number(iso[3]), dayMs, offsetMinutes(compact ? iso[7] : iso[8]))
  }
  return parseLoose(text, order)
}

function parseLoose(text: string, order: DateOrder | null): WrittenMoment | DateTrouble {
  const time = TIME.exec(text)
  let dayMs: number | null = null
  let offsetMin: number | null = null
  if (time) {
    if (time[6] && !/^(z|utc|gmt|[+-].*)$/i.test(time[6])) return 'unknown-zone'
    dayMs = clockMs(time[1]!, time[2]!, time[3], time[4], time[5])
    if (dayMs === null) return 'no-such-day'
    offsetMin = offsetMinutes(time[6])
  }
  const date = (time ? text.slice(0, time.index) : text).replace(/[,\s]+$/, '')
  const word = DAY_FIRST_WORD.exec(date)
  if (word) return wordDate(word[3]!, word[2]!, word[1]!, dayMs, offsetMin)
  const american = MONTH_FIRST_WORD.exec(date)
  if (american) return wordDate(american[3]!, american[1]!, american[2]!, dayMs, offsetMin)
  const numeric = NUMERIC.exec(date)
  return numeric ? numericDate(numeric, order, dayMs, offsetMin) : 'not-a-date'
}

function wordDate(year: string, month: string, day: string, dayMs: number | null, offsetMin: number | null): WrittenMoment | DateTrouble {
  const at = MONTHS.indexOf(month.slice(0, 3).toLowerCase())
  return at === -1 ? 'not-a-date' : checked(fullYear(year), at + 1, Number(day), dayMs, offsetMin)
}

function numericDate(
  parts: RegExpExecArray, order: DateOrder | null, dayMs: number | null, offsetMin: number | null
): WrittenMoment | DateTrouble {
  const [, first = '', mark, middle = '', last = ''] = parts
  if (first.length === 4) return last.length <= 2 ? checked(Number(first), Number(middle), Number(last), dayMs, offsetMin) : 'not-a-date'
  if (first.length === 3 || (last.length !== 4 && last.length !== 2)) return 'not-a-date'
  const year = fullYear(last)
  const [a, b] = [Number(first), Number(middle)]
  if (mark === '.') return checked(year, b, a, dayMs, offsetMin)
  const told = orderOf(a, b)
  if (told && order && told !== order) return 'other-order'
  const used = told ?? order ?? 'mdy'
  const unsure = told === null && order === null && a !== b
  return used === 'mdy' ? checked(year, a, b, dayMs, offsetMin, unsure) : checked(year, b, a, dayMs, offsetMin, unsure)
}

const orderOf = (first: number, second: number): DateOrder | null =>
  first > 12 && second <= 12 ? 'dmy' : second > 12 && first <= 12 ? 'mdy' : null

/**
 * What one date tells about the order of all of them: 13/04 is day first, 04/13 month first, 04/03 tells nothing, ISO has none. A day that
 * there is not, such as 31/04, tells nothing either: whoever typed it did not mean what stands there.
 */
export function dateOrderEvidence(text: string): DateOrder | 'ambiguous' | null {
  const match = /^\s*(\d{1,2})([/-])(\d{1,2})[/-](\d{4}|\d{2})(?!\d)/.exec(text)
  if (!match) return null
  const [a, b, year] = [Number(match[1]), Number(match[3]), fullYear(match[4]!)]
  const order = orderOf(a, b)
  if (order === null) return a > 12 ? null : 'ambiguous'
  return typeof (order === 'dmy' ? checked(year, b, a, null, null) : checked(year, a, b, null, null)) === 'string' ? null : order
}
