/**
 * Units as people write them, and what they are in SI. Intake reads with this; the engine and the store see SI
 * and the template's units only (µΩ, °C, m/s, m, A).
 * Factors: resistance, length and speed are exact by definition (international foot 0.3048 m, statute mile 1609.344 m,
 * nautical mile 1852 m); degrees Fahrenheit by 9/5 and 32.
 */
export type Quantity =
  | 'resistance' | 'temperature' | 'speed' | 'length' | 'current' | 'voltage' | 'angle' | 'resolution' | 'line-distance'

interface UnitDefinition {
  quantity: Quantity
  /** SI value = (number + offset) × num / den. Whole factors, so that 1 ft is 12 in and not a hair more. */
  num: number
  den: number
  offset?: number
  /** As a person reads it. */
  label: string
}

const UNITS = {
  uohm: { quantity: 'resistance', num: 1, den: 1e6, label: 'µΩ' },
  mohm: { quantity: 'resistance', num: 1, den: 1e3, label: 'mΩ' },
  ohm: { quantity: 'resistance', num: 1, den: 1, label: 'Ω' },
  c: { quantity: 'temperature', num: 1, den: 1, label: '°C' },
  f: { quantity: 'temperature', num: 5, den: 9, offset: -32, label: '°F' },
  m_s: { quantity: 'speed', num: 1, den: 1, label: 'm/s' },
  km_h: { quantity: 'speed', num: 10, den: 36, label: 'km/h' },
  mph: { quantity: 'speed', num: 44704, den: 1e5, label: 'mph' },
  kn: { quantity: 'speed', num: 1852, den: 3600, label: 'kn' },
  ft_s: { quantity: 'speed', num: 3048, den: 1e4, label: 'ft/s' },
  m: { quantity: 'length', num: 1, den: 1, label: 'm' },
  mm: { quantity: 'length', num: 1, den: 1e3, label: 'mm' },
  cm: { quantity: 'length', num: 1, den: 100, label: 'cm' },
  km: { quantity: 'length', num: 1e3, den: 1, label: 'km' },
  ft: { quantity: 'length', num: 3048, den: 1e4, label: 'ft' },
  in: { quantity: 'length', num: 254, den: 1e4, label: 'in' },
  mi: { quantity: 'length', num: 1609344, den: 1e3, label: 'mi' },
  a: { quantity: 'current', num: 1, den: 1, label: 'A' },
  ka: { quantity: 'current', num: 1e3, den: 1, label: 'kA' },
  v: { quantity: 'voltage', num: 1, den: 1, label: 'V' },
  kv: { quantity: 'voltage', num: 1e3, den: 1, label: 'kV' },
  deg: { quantity: 'angle', num: 1, den: 1, label: '°' },
  mrad: { quantity: 'resolution', num: 1, den: 1, label: 'mrad' },
  ft_station: { quantity: 'line-distance', num: 3048, den: 1e4, label: 'feet station' },
} as const satisfies Record<string, UnitDefinition>

export type Unit = keyof typeof UNITS
export const UNIT_KEYS = Object.keys(UNITS) as Unit[]

const definition = (unit: Unit): UnitDefinition => UNITS[unit]

export const isUnit = (key: string): key is Unit => Object.hasOwn(UNITS, key)
export const quantityOf = (unit: Unit): Quantity => UNITS[unit].quantity
export const unitLabel = (unit: Unit): string => UNITS[unit].label

/** A feet station is a length in disguise, so the two may be exchanged. */
const kindOf = (unit: Unit): Quantity => {
  const quantity = quantityOf(unit)
  return quantity === 'line-distance' ? 'length' : quantity
}

export const unitsAgree = (a: Unit, b: Unit): boolean => kindOf(a) === kindOf(b)

/**
 * A number in one unit as a number in another of the same quantity: `convert(12.3, 'mohm', 'uohm')` is 12300.
 * @throws RangeError where the two units measure different things: a mapping that let this through is wrong, not a row.
 */
export function convert(value: number, from: Unit, to: Unit): number {
  if (from === to) return value
  if (!unitsAgree(from, to)) throw new RangeError(`${unitLabel(from)} cannot be turned into ${unitLabel(to)}.`)
  return convertFromTo(value, definition(from), definition(to))
}

function convertFromTo(value: number, from: UnitDefinition, to: UnitDefinition): number {
  return ((value + (from.offset ?? 0)) * from.num * to.den) / (from.den * to.num) - (to.offset ?? 0)
}

/** A difference of temperature: no offset, so 9 °F is 5 K. Other quantities as `convert`. */
export function convertDifference(value: number, from: Unit, to: Unit): number {
  return convert(value, from, to) - convert(0, from, to)
}

/**
 * '12+34.5' is 1234.5 ft along the line; null where the text is no feet station.
 * Two digits stand before the decimal point after the plus sign, as drawings write it.
 */
export function parseFeetStationFt(text: string): number | null {
  const match = /^\s*(-?)(\d+)\+(\d{2}(?:\.\d+)?)\s*$/.exec(text)
  if (!match) return null
  const feet = Number(match[2]) * 100 + Number(match[3])
  return match[1] === '-' ? -feet : feet
}
