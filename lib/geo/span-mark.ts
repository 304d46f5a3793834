import { convert } from '@/lib/units/convert'
import { nameKey, structureKey } from './network/labels'

/** One way to read the structures of a place; which way is meant, the structures on file tell. All as keys of `lib/geo/network/labels`. */
export interface SpanNames {
  circuit?: string
  first: string
  second?: string
}

/** A place along a span as people say it: 'STR 45-46 + 404 ft', '45-46, 123 m ahead of 45', 'one third ahead of 45', '45-46'. */
export interface SpanMark {
  names: SpanNames[]
  /** How far: metres, or a share of the span. */
  along: { lengthM: number } | { share: number }
  /** The structure that it is counted from; not named: the first. */
  from?: string
  /** Ahead looks to greater line distances; 'on' from the first structure to the second, whichever way that is. */
  toward: 'on' | 'ahead' | 'back'
  /** The distance as it was typed. */
  words: string
  /** Nothing was said of where along the span: its middle is meant. */
  isSpanAlone?: true
}

export type SpanMarkText = { mark: SpanMark } | { unitless: string } | null

const NUMBER = String.raw`\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:[.,]\d+)?|[.,]\d+`
const SHARES: Readonly<Record<string, number>> = {
  'a tenth': 1 / 10, 'one tenth': 1 / 10, 'a fifth': 1 / 5, 'one fifth': 1 / 5, 'a quarter': 1 / 4, 'one quarter': 1 / 4, 'a third': 1 / 3, 'one third': 1 / 3,
  'half': 1 / 2, 'halfway': 1 / 2, 'midspan': 1 / 2, 'two thirds': 2 / 3, 'three quarters': 3 / 4,
}
const FAR = String.raw`(?:${Object.keys(SHARES).join('|')}|(?:${NUMBER})\s*(?:km|m|metres?|meters?|ft|feet|foot|'|’|′|mi|miles?)?)`
const COUNTED = new RegExp(String.raw`^(?:(.*?)[\s,;]+)?(${FAR})\s+(ahead|back|before|beyond|past|after)(?:\s+(?:of|from))?\s+(\S(?:.*\S)?)$`, 'i')
const PLUS = new RegExp(String.raw`^(.+?)\s*\+\s*(${FAR})$`, 'i')
const BETWEEN = /^(?:(.*?)[\s,;]+)?(?:halfway|midspan)\s+between\s+(\S.*?)\s+and\s+(\S.*)$/i
const MIDDLE = /^(.+?)[\s,;]+(?:halfway|midspan|middle(?: of (?:the )?span)?)$/i
/** Stands in no name of a span that is said by itself: what follows such a sign was not understood. */
const UNREAD = /[\s+,;]/
const UNITS = { km: 'km', m: 'm', f: 'ft', "'": 'ft', '’': 'ft', '′': 'ft', mi: 'mi' } as const

/**
 * A place along a span, of a text of any length; null where it is none. A number without a unit is told apart, for metres are not feet.
 * Every part of the text is either understood or the whole is refused: nothing that was typed is passed over.
 */
export function parseSpanMark(typed: string): SpanMarkText {
  const text = typed.trim().replace(/[‐‑‒–—−]/g, '-').replace(/[\s\u00a0\u2009\u202f]+/g, ' ')
  const counted = COUNTED.exec(text)
  if (counted) {
    const [, where = '', far = '', way = '', from = ''] = counted
    const toward = /back|before/i.test(way) ? 'back' : 'ahead'
    // Where only one structure is named, it is the one that is counted from: what stands before it can be a circuit alone.
    return markOf(far, [...namesOf(where).filter(({ second }) => second !== undefined), ...onlyNamed(where, from)], toward, `${far} ${way.toLowerCase()} of ${from}`, structureKey(from))
  }
  const between = BETWEEN.exec(text)
  if (between) {
    const [, where = '', first = '', second = ''] = between
    const names = circuitOf(where).map((circuit) => ({ ...circuit, first: structureKey(first), second: structureKey(second) }))
    return names.length === 0 ? null : { mark: { names, along: { share: 0.5 }, toward: 'on', words: 'halfway' } }
  }
  const plus = PLUS.exec(text)
  if (plus) return markOf(plus[2] ?? '', namesOf(plus[1] ?? ''), 'on', `+ ${plus[2]}`)
  const middle = MIDDLE.exec(text)?.[1]
  const names = namesOf(middle ?? text).filter(({ first, second }) => second !== undefined && !UNREAD.test(first + second))
  if (names.length === 0) return null
  return { mark: { names, along: { share: 0.5 }, toward: 'on', words: 'halfway', ...(middle === undefined ? { isSpanAlone: true } : {}) } }
}

function markOf(far: string, names: SpanNames[], toward: SpanMark['toward'], words: string, from?: string): SpanMarkText {
  if (names.length === 0) return null
  const share = SHARES[far.toLowerCase()]
  if (share !== undefined) return { mark: { names, along: { share }, toward, words, from } }
  const [, number = '', unit = ''] = /^([\d.,]+)\s*(.*)$/.exec(far) ?? []
  if (unit === '') return { unitless: number }
  const value = Number(/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(number) ? number.replaceAll(',', '') : number.replace(',', '.'))
  const word = unit.toLowerCase()
  const key = word.startsWith('mi') ? 'mi' : word === 'km' ? 'km' : word.startsWith('m') ? 'm' : word.startsWith('f') ? 'f' : "'"
  return { mark: { names, along: { lengthM: convert(value, UNITS[key], 'm') }, toward, words, from } }
}

const onlyNamed = (where: string, from: string): SpanNames[] => circuitOf(where).map((circuit) => ({ ...circuit, first: structureKey(from) }))

/** What stands before the place itself: nothing, or the name of a circuit. */
function circuitOf(where: string): Pick<SpanNames, 'circuit'>[] {
  const name = where.trim().replace(/[\s,;:]+$/, '').replace(/^circuit\s+/i, '')
  return name === '' ? [{}] : [{ circuit: nameKey(name) }]
}

/** Every way to part a text into circuit, first and second structure: hyphens and spaces stand in names too. */
function namesOf(text: string): SpanNames[] {
  const all = text.trim().replace(/[\s,;:]+$/, '')
  if (all === '') return []
  const parted = [...all.matchAll(/[\s,]+/g)].map(({ index, 0: gap }) => ({ circuit: all.slice(0, index), rest: all.slice(index + gap.length) }))
  return [
    ...structuresOf(all),
    ...parted.flatMap(({ circuit, rest }) => (rest === '' || circuit === '' ? [] : circuitOf(circuit).flatMap((on) => structuresOf(rest).map((names) => ({ ...on, ...names }))))),
  ].slice(0, MOST_WAYS)
}

const MOST_WAYS = 60

function structuresOf(text: string): Omit<SpanNames, 'circuit'>[] {
  const pairs = [...text.matchAll(/-/g)].map(({ index }) => ({ first: structureKey(text.slice(0, index)), second: structureKey(text.slice(index + 1)) }))
  return [{ first: structureKey(text) }, ...pairs.filter(({ first, second }) => first !== '' && second !== '')]
}
