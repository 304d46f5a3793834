import { convert, convertDifference } from './convert'
import { formatNumber, type UnitSystem } from './format'
import { spell } from './spelling'

interface Turned {
  unit: string
  turn(value: number): number
  decimals: number
}

/** What stands in braces, in US units; 'K' is a difference of temperatures and never moves by 32. */
const IN_US: Record<string, Turned> = {
  '°C': { unit: '°F', turn: (c) => convert(c, 'c', 'f'), decimals: 0 },
  'K': { unit: '°F', turn: (k) => convertDifference(k, 'c', 'f'), decimals: 1 },
  'm/s': { unit: 'mph', turn: (ms) => convert(ms, 'm_s', 'mph'), decimals: 0 },
  'm': { unit: 'ft', turn: (m) => convert(m, 'm', 'ft'), decimals: 0 },
}

const QUANTITY = /\{(?:([\d.]+)(–| to | and ))?([\d.]+) (°C|K|m\/s|m)\}/g

/**
 * A fixed sentence in the reader's units and spelling. Quantities are written in SI and braces, one or two with one unit:
 * '{93 °C}', '{30 to 50 K}', '{4 m/s}', '{1 m}'. Metric readers see a difference of temperatures in °C.
 */
export function localText(text: string, system: UnitSystem): string {
  return spell(text.replace(QUANTITY, (_all, from: string | undefined, between: string | undefined, to: string, unit: string) =>
    (from === undefined ? '' : `${number(from, unit, system)}${between}`) + `${number(to, unit, system)} ${shownUnit(unit, system)}`), system)
}

function number(text: string, unit: string, system: UnitSystem): string {
  const us = IN_US[unit]
  if (system === 'us' && us) return formatNumber(us.turn(Number(text)), us.decimals).replace(/\.0$/, '')
  // Differences may come with more digits than are read, so that no reader has one that was rounded twice.
  if (unit === 'K' && /\.\d\d/.test(text)) return formatNumber(Number(text), 1)
  return Number(text) >= 1000 ? formatNumber(Number(text), 0) : text
}

const shownUnit = (unit: string, system: UnitSystem): string => (system === 'us' ? IN_US[unit]?.unit ?? unit : unit === 'K' ? '°C' : unit)
