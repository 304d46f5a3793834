import type { FieldChoice, Said } from '@/lib/intake'
import { isTimeZone } from '@/lib/units/time'

/** Both sides of LEFT=RIGHT. Throws a sentence where one of them is empty. */
export function pairOf(option: string, text: string, form: string, example: string): [left: string, right: string] {
  const at = text.indexOf('=')
  const [left, right] = [text.slice(0, Math.max(0, at)).trim(), text.slice(at + 1).trim()]
  if (left === '' || right === '') throw new Error(`${option} '${text}' is not of the form ${form}. Write, for example, ${example}.`)
  return [left, right]
}

interface Options { unit?: string[]; zone?: string; dateOrder?: string; decimal?: string; set?: string[] }

/** The words of the command, and those of the API. */
const DATE_ORDERS = { 'month-first': 'mdy', mdy: 'mdy', 'day-first': 'dmy', dmy: 'dmy' } as const
const DECIMALS = { comma: true, point: false } as const

/** What the options say of each file; undefined where they say nothing. Throws a sentence where one cannot be meant. */
export function saidOf({ unit = [], zone, dateOrder, decimal, set = [] }: Options, fields?: FieldChoice[]): Said | undefined {
  if (zone !== undefined && !isTimeZone(zone)) throw new Error(`--zone '${zone}' is no time zone. Write one such as America/Denver.`)
  const order = dateOrder === undefined ? undefined : wordOf('--date-order', dateOrder, DATE_ORDERS, 'day-first or month-first')
  const decimalComma = decimal === undefined ? undefined : wordOf('--decimal', decimal, DECIMALS, 'comma or point')
  const units = unit.map((text) => {
    const [of, written] = pairOf('--unit', text, 'field=unit', '--unit side_a_uohm=mohm')
    return { of, unit: written }
  })
  const values = set.map((text) => pairOf('--set', text, 'field=value', '--set kind=dead-end'))
  twice('--unit', units.map(({ of }) => of))
  twice('--set', values.map(([field]) => field))
  const said: Said = {
    ...(fields && { fields }), ...(units.length > 0 && { units }), ...(zone !== undefined && { timeZone: zone }), ...(order && { dateOrder: order }),
    ...(decimalComma !== undefined && { decimalComma }), ...(values.length > 0 && { values: Object.fromEntries(values) }),
  }
  return Object.keys(said).length === 0 ? undefined : said
}

function wordOf<T>(option: string, word: string, words: Readonly<Record<string, T>>, all: string): T {
  const meant = Object.hasOwn(words, word.toLowerCase()) ? words[word.toLowerCase()] : undefined
  if (meant === undefined) throw new Error(`${option} '${word}' is not understood. Write ${all}.`)
  return meant
}

function twice(option: string, names: readonly string[]): void {
  const again = names.find((name, at) => names.indexOf(name) < at)
  if (again !== undefined) throw new Error(`${option} names ${again} twice. Say it once.`)
}
