import { convert, convertDifference, type Unit } from './convert'

/** The user's edge: a US utility reads ft, mi and °F, everybody else m, km and °C. */
export type UnitSystem = 'us' | 'metric'

/** A number and its unit apart, so that a screen can set the unit in a lighter tone. */
export interface Measure {
  value: string
  unit: string
}

export const NOT_KNOWN = 'not known'

/** Number and unit as one text; a per cent or degree sign that stands alone stays close to its number. */
export const measureText = (measure: Measure): string =>
  measure.unit === '' ? measure.value : `${measure.value}${measure.unit === '%' || measure.unit === '°' ? '' : ' '}${measure.unit}`

/** Fixed decimals, thousands parted by commas, a true minus sign and no minus before a zero. */
export function formatNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return NOT_KNOWN
  const [whole = '', fraction] = Math.abs(value).toFixed(decimals).split('.')
  const digits = whole.replace(/\B(?=(\d{3})+(?!\d))/g, ',') + (fraction === undefined ? '' : `.${fraction}`)
  return value < 0 && /[1-9]/.test(digits) ? `−${digits}` : digits
}

const measure = (value: number, decimals: number, unit: string): Measure =>
  Number.isFinite(value) ? { value: formatNumber(value, decimals), unit } : { value: NOT_KNOWN, unit: '' }

const length = (lengthM: number, unit: Unit, decimals: number): Measure => measure(convert(lengthM, 'm', unit), decimals, unit)

/** Metres along a line from its named end: km or mi with two decimals, m or ft while short. */
export function lineDistanceMeasure(distanceM: number, system: UnitSystem): Measure {
  const short = Math.abs(distanceM)
  if (system === 'us') return short < 304.8 ? length(distanceM, 'ft', 0) : length(distanceM, 'mi', 2)
  return short < 999.5 ? length(distanceM, 'm', 0) : length(distanceM, 'km', 2)
}

/**
 * Any length in metres in the unit that suits its size: electrode spans in mm or in, spans in m or ft, circuits in km or mi,
 * these with one decimal under 100.
 */
export function lengthMeasure(lengthM: number, system: UnitSystem): Measure {
  const size = Math.abs(lengthM)
  if (system === 'us') {
    if (size < 0.9144) return length(lengthM, 'in', 1)
    if (size < 30.48) return length(lengthM, 'ft', 1)
    return size < 1609.344 ? length(lengthM, 'ft', 0) : far(lengthM, 'mi')
  }
  if (size < 0.9995) return length(lengthM, 'mm', 0)
  if (size < 9.995) return length(lengthM, 'm', 2)
  return size < 999.5 ? length(lengthM, 'm', 0) : far(lengthM, 'km')
}

const far = (lengthM: number, unit: Unit): Measure => length(lengthM, unit, Math.abs(convert(lengthM, 'm', unit)) < 99.95 ? 1 : 0)

/** Metres beside the line or ahead of a structure: whole m or ft, one decimal under 10. */
export function offsetMeasure(offsetM: number, system: UnitSystem): Measure {
  const unit = system === 'us' ? 'ft' : 'm'
  return length(offsetM, unit, Math.abs(convert(offsetM, 'm', unit)) < 9.95 ? 1 : 0)
}

/** A distance that must not be passed, as `offsetMeasure` but never rounded up. */
export function nearerMeasure(distanceM: number, system: UnitSystem): Measure {
  const unit = system === 'us' ? 'ft' : 'm'
  const steps = convert(distanceM, 'm', unit) < 10 ? 10 : 1
  return offsetMeasure(convert(Math.floor(convert(distanceM, 'm', unit) * steps + 1e-9) / steps, unit, 'm'), system)
}

/** A place ahead of a structure in whole m or ft: no receiver in the field tells less. */
export const alongMeasure = (offsetM: number, system: UnitSystem): Measure => length(offsetM, system === 'us' ? 'ft' : 'm', 0)

/** Fittings and conductors in millimetres: mm with one decimal, in with two. */
export const diameterMeasure = (diameterMm: number, system: UnitSystem): Measure =>
  system === 'us' ? measure(convert(diameterMm, 'mm', 'in'), 2, 'in') : measure(diameterMm, 1, 'mm')

export const temperatureMeasure = (temperatureC: number, system: UnitSystem): Measure =>
  system === 'us' ? measure(convert(temperatureC, 'c', 'f'), 1, '°F') : measure(temperatureC, 1, '°C')

/** A limit that people set in whole degrees: 75 °C is 167 °F. */
export const temperatureLimitMeasure = (limitC: number, system: UnitSystem): Measure =>
  system === 'us' ? measure(convert(limitC, 'c', 'f'), 0, '°F') : measure(limitC, Number.isInteger(limitC) ? 0 : 1, '°C')

/** A difference of temperatures in kelvins, in the degrees people read: no offset of 32. */
const temperatureDifferenceMeasure = (differenceK: number, system: UnitSystem): Measure =>
  system === 'us' ? measure(convertDifference(differenceK, 'c', 'f'), 1, '°F') : measure(differenceK, 1, '°C')

/** As many digits as a wind is told with, in a field and in a sentence: rating weather is 0.61 m/s, or 1.36 mph. */
export const WIND_DIGITS = 3

function windMeasure(windMS: number, system: UnitSystem): Measure {
  const value = Number((system === 'us' ? convert(windMS, 'm_s', 'mph') : windMS).toPrecision(WIND_DIGITS))
  return measure(value, String(value).split('.')[1]?.length ?? 0, system === 'us' ? 'mph' : 'm/s')
}

export const resistanceMeasure = (resistanceUohm: number): Measure => measure(resistanceUohm, 1, 'µΩ')
export const currentMeasure = (currentA: number): Measure => measure(currentA, 0, 'A')

/** What may flow at most: never rounded up, so that no figure read out allows more than was reckoned. */
export const allowedMeasure = (currentA: number): Measure => currentMeasure(Math.floor(currentA))

export const voltageMeasure = (voltageKv: number): Measure => measure(voltageKv, Number.isInteger(voltageKv) ? 0 : 1, 'kV')

/** A share of 0 … 1. What is not quite none or all never reads 0 or 100. */
export function percentMeasure(share: number, decimals = 0): Measure {
  const percent = share * 100
  const step = 10 ** -decimals
  if (percent > 0 && percent < step / 2) return { value: `<${formatNumber(step, decimals)}`, unit: '%' }
  if (percent < 100 && percent >= 100 - step / 2) return { value: `>${formatNumber(100 - step, decimals)}`, unit: '%' }
  return measure(percent, decimals, '%')
}

/** How sure a place is, as a share of 0 … 1: whole per cent, never rounded up, so that what waits does not read as sure enough. */
export function formatSure(share: number): string {
  const percent = Math.floor(share * 100)
  return percent < 1 ? '<1%' : `${percent}%`
}

/** The greatest ratio that is told by its digits. */
export const GREATEST_RATIO = 100

/**
 * A ratio with two decimals, and with as many as place it on its side of each edge: 1.2996 against an edge of 1.3
 * reads 1.2996 and not 1.30. Over 100 an instrument was at the end of its range or an interface is open, and no digit means anything.
 */
export function formatRatio(ratio: number, edges: readonly number[] = []): string {
  if (!Number.isFinite(ratio)) return NOT_KNOWN
  if (ratio > GREATEST_RATIO) return `over ${GREATEST_RATIO}`
  for (let decimals = 2; decimals < 10; decimals++) {
    const shown = ratio.toFixed(decimals)
    if (edges.every((edge) => Math.sign(Number(shown) - edge) === Math.sign(ratio - edge))) return formatNumber(ratio, decimals)
  }
  return formatNumber(ratio, 10)
}

/** An edge as somebody set it: two decimals, or as many as it has up to four. One that was computed has no end and takes two. */
export const formatEdge = (edge: number): string => {
  const set = Number(edge.toFixed(4)) === edge
  return !set || Number(edge.toFixed(2)) === edge ? edge.toFixed(2) : String(edge)
}

export const formatLineDistance = (distanceM: number, system: UnitSystem): string => measureText(lineDistanceMeasure(distanceM, system))
export const formatLength = (lengthM: number, system: UnitSystem): string => measureText(lengthMeasure(lengthM, system))
export const formatAlong = (offsetM: number, system: UnitSystem): string => measureText(alongMeasure(offsetM, system))
export const formatOffset = (offsetM: number, system: UnitSystem): string => measureText(offsetMeasure(offsetM, system))
export const formatNearer = (distanceM: number, system: UnitSystem): string => measureText(nearerMeasure(distanceM, system))
export const formatTemperature = (temperatureC: number, system: UnitSystem): string => measureText(temperatureMeasure(temperatureC, system))
export const formatTemperatureLimit = (limitC: number, system: UnitSystem): string => measureText(temperatureLimitMeasure(limitC, system))
/** A temperature that was reckoned, in whole degrees: converted first and rounded once, so that every screen has the same. */
export const formatWholeTemperature = (temperatureC: number, system: UnitSystem): string =>
  measureText(system === 'us' ? measure(convert(temperatureC, 'c', 'f'), 0, '°F') : measure(temperatureC, 0, '°C'))
/** How often something holds, from a share under 1: '9 times in 10', '95 times in 100'. */
export function formatTimesIn(share: number): string {
  for (const times of [10, 100]) if (Math.abs(share * times - Math.round(share * times)) < 1e-9) return `${Math.round(share * times)} times in ${times}`
  return `${formatNumber(Math.floor(share * 1000), 0)} times in 1,000`
}
export const formatTemperatureDifference = (differenceK: number, system: UnitSystem): string =>
  measureText(temperatureDifferenceMeasure(differenceK, system))
export const formatWind = (windMS: number, system: UnitSystem): string => measureText(windMeasure(windMS, system))
export const formatResistance = (resistanceUohm: number): string => measureText(resistanceMeasure(resistanceUohm))
export const formatCurrent = (currentA: number): string => measureText(currentMeasure(currentA))
export const formatAllowed = (currentA: number): string => measureText(allowedMeasure(currentA))
export const formatAllowedMva = (mva: number): string => formatNumber(Math.floor(mva), 0)
export const formatVoltage = (voltageKv: number): string => measureText(voltageMeasure(voltageKv))
export const formatPercent = (share: number, decimals = 0): string => measureText(percentMeasure(share, decimals))
