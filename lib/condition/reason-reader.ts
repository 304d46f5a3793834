import {
  formatAllowed, formatAllowedMva, formatCurrent, formatEdge, formatLength, formatNumber, formatPercent, formatRatio, formatResistance, formatTemperature, formatTemperatureDifference,
  formatTemperatureLimit, formatWind, type UnitSystem,
} from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import { YEAR_MS } from './limits'
import type { Edges, Reason } from './types'

/** How the user reads numbers. */
export interface Words {
  unitSystem: UnitSystem
  /** IANA zone. */
  timeZone: string
  edges: Edges
}

/** Reads the values of a reason as the user reads them; a number that is not there reads 'not known'. */
export interface ReasonReader {
  edges: Edges
  number(key: string): number
  word(key: string): string
  is(key: string, value: string | boolean): boolean
  has(key: string): boolean
  /** 'Side A', or with the doubt where nobody noted which structure it faces. */
  side(): string
  count(key: string): string
  oneDecimal(key: string): string
  /** With as many digits as place it on its side of the class edges. */
  ratio(key: string): string
  plainRatio(key: string): string
  /** A class edge. */
  edge(key: string): string
  uohm(key: string): string
  length(key: string): string
  temperature(key: string): string
  /** A limit in whole degrees. */
  limit(key: string): string
  difference(key: string): string
  current(key: string): string
  /** What may flow at most, and its power: never rounded up. */
  allowed(key: string): string
  allowedMva(key: string): string
  speed(key: string): string
  share(key: string): string
  /** A share that nobody can be certain of: never none and never all, in words there. */
  chance(key: string): string
  /** ' on 14 Mar 2026', or nothing where the date is not known. */
  onDate(key: string): string
  /** The same, and of a day more than two years after that of `from`, ' in 2061': nobody knows it to the day. */
  aboutDate(key: string, from: string): string
  /** ' on 14 Mar 2026, at 155 A (17% of rating),', what is not known left out. */
  flight(): string
}

const LEAST_CHANCE = 1e-9

/** Of a chance that nobody can be certain of: never none and never all. */
export const chanceText = (chance: number): string =>
  formatPercent(Math.min(Math.max(chance, LEAST_CHANCE), 1 - LEAST_CHANCE)).replace('<', 'under ').replace('>', 'over ')

export function readReason({ values }: Reason, { unitSystem, timeZone, edges }: Words): ReasonReader {
  const number = (key: string): number => {
    const value = values[key]
    return typeof value === 'number' ? value : Number.NaN
  }
  const word = (key: string): string => {
    const value = values[key]
    return typeof value === 'string' ? value : ''
  }
  const onDate = (key: string): string => (typeof values[key] === 'number' ? ` on ${formatDate(number(key), timeZone)}` : '')
  const all = [edges.watch, edges.degraded, edges.urgent, edges.critical]
  return {
    edges,
    number,
    word,
    is: (key, value) => values[key] === value,
    has: (key) => values[key] !== null && values[key] !== undefined,
    side: () => (values.declared === false ? `The side noted as ${word('side')}` : `Side ${word('side')}`),
    count: (key) => formatNumber(number(key), 0),
    oneDecimal: (key) => formatNumber(number(key), 1),
    ratio: (key) => formatRatio(number(key), all),
    plainRatio: (key) => formatRatio(number(key)),
    edge: (key) => formatEdge(number(key)),
    uohm: (key) => formatResistance(number(key)),
    length: (key) => formatLength(number(key), unitSystem),
    temperature: (key) => formatTemperature(number(key), unitSystem),
    limit: (key) => formatTemperatureLimit(number(key), unitSystem),
    difference: (key) => formatTemperatureDifference(number(key), unitSystem),
    current: (key) => formatCurrent(number(key)),
    allowed: (key) => formatAllowed(number(key)),
    allowedMva: (key) => formatAllowedMva(number(key)),
    speed: (key) => formatWind(number(key), unitSystem),
    share: (key) => formatPercent(number(key)),
    chance: (key) => chanceText(number(key)),
    onDate,
    aboutDate: (key, from) => (number(key) - number(from) > 2 * YEAR_MS ? ` in ${formatDate(number(key), timeZone).split(' ').at(-1)}` : onDate(key)),
    flight: () => {
      const load = loadText(number('currentA'), number('loadShare'))
      return `${onDate('takenAtMs')}${load}${load === '' ? '' : ','}`
    },
  }
}

/** Line current of a picture; its share of the rating where that is known. */
export function loadText(currentA: number | undefined, loadShare: number | undefined): string {
  if (currentA === undefined || !Number.isFinite(currentA)) return ''
  const share = loadShare === undefined || !Number.isFinite(loadShare) ? '' : ` (${formatPercent(loadShare)} of rating)`
  return `, at ${formatCurrent(currentA)}${share}`
}

export type Sentence = (r: ReasonReader) => string
