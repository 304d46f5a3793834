import { err, ok, type Result } from '@/lib/result/result'
import { kFromTemperature } from './heat/joint'
import { HEAT_RANGES } from './heat/ranges'
import { effectiveWindMS } from './heat/reference-wind'
import type { InconclusiveCause } from './infrared-causes'
import type { Picture } from './infrared-picture'

/** Which error makes how much of the error of ln k. */
export type ErrorSource = 'temperature' | 'difference' | 'current' | 'wind' | 'barrel' | 'emissivity' | 'sun'

export interface InfraredK {
  k: number
  /** Standard error of ln k. */
  uLnK: number
  /** Across the line: as the conductor shows it, or as measured. */
  windMS: number
  windFrom: 'conductor' | 'measured'
  parts: Record<ErrorSource, number>
}

/** A conductor this many errors hotter than still air leaves it still counts as standing in still air. */
const STILL_AIR_ERRORS = 2

const between = ([least, greatest]: readonly [number, number], value: number): number => Math.min(greatest, Math.max(least, value))

/** Wind across the line at the splice, m/s; null where neither the conductor's temperature nor a measured wind gives one. */
export function windOf(picture: Picture): Result<number, InconclusiveCause> {
  const { conductor, conductorC, currentA, calm, errors } = picture
  if (conductorC === undefined) {
    return picture.windMS === undefined ? err('conductor-temperature-and-wind-missing') : ok(between(HEAT_RANGES.windMS, picture.windMS))
  }
  const wind = effectiveWindMS(conductor, conductorC, currentA, calm)
  if (wind.ok) return wind
  if ('quantity' in wind.error) return err('out-of-range')
  switch (wind.error.kind) {
    case 'no-rise': return err('low-conductor-rise')
    case 'too-much-wind': return err('conductor-colder-than-current')
    case 'hotter-than-still-air': {
      const { stillAirC = -Infinity } = wind.error
      return conductorC - stillAirC <= STILL_AIR_ERRORS * errors.temperatureK ? ok(0) : err('conductor-hotter-than-current')
    }
  }
}

function kOf(picture: Picture, windFactor: number): Result<{ k: number; windMS: number }, InconclusiveCause> {
  const wind = windOf(picture)
  if (!wind.ok) return wind
  const windMS = between(HEAT_RANGES.windMS, wind.value * windFactor)
  const k = kFromTemperature(picture.conductor, picture.barrel, picture.spliceC, picture.currentA, { ...picture.calm, windMS, windAngleDeg: 90 })
  if (k.ok) return ok({ k: k.value, windMS: wind.value })
  if ('quantity' in k.error) return err('out-of-range')
  return err(k.error.kind === 'no-current' ? 'low-load' : 'splice-colder-than-model')
}

/**
 * k of a splice by infrared: wind from its own conductor where that was read (the error of the wind cancels), else as measured.
 * Each error is put in upward and downward and half the change of ln k is its part; what cannot be put in one way counts once.
 */
export function infraredKOf(picture: Picture): Result<InfraredK, InconclusiveCause> {
  const found = kOf(picture, 1)
  if (!found.ok) return found
  const { k, windMS } = found.value
  const parts = { temperature: 0, difference: 0, current: 0, wind: 0, barrel: 0, emissivity: 0, sun: 0 }
  let square = 0
  for (const source of SOURCES) {
    const up = shifted(picture, source, 1)
    const down = shifted(picture, source, -1)
    if (up === null && down === null) return err('out-of-range')
    const part = up !== null && down !== null ? Math.abs(up - down) / 2 : Math.abs((up ?? down ?? 0) - Math.log(k))
    parts[source] = part
    square += part * part
  }
  return ok({ k, uLnK: Math.sqrt(square), windMS, windFrom: picture.conductorC === undefined ? 'measured' : 'conductor', parts })
}

const SOURCES: readonly ErrorSource[] = ['temperature', 'difference', 'current', 'wind', 'barrel', 'emissivity', 'sun']

/** ln k with one input shifted by its error; null where no k fits then. */
function shifted(picture: Picture, source: ErrorSource, way: 1 | -1): number | null {
  const { errors } = picture
  const found = source === 'wind' ? kOf(picture, Math.max(0, 1 + way * errors.windShare)) : kOf(withError(picture, source, way), 1)
  return found.ok ? Math.log(found.value.k) : null
}

function withError(picture: Picture, source: Exclude<ErrorSource, 'wind'>, way: 1 | -1): Picture {
  const { conductor, barrel, calm, errors } = picture
  switch (source) {
    case 'temperature': {
      const shiftK = way * errors.temperatureK
      return { ...picture, spliceC: picture.spliceC + shiftK, conductorC: picture.conductorC === undefined ? undefined : picture.conductorC + shiftK }
    }
    case 'difference': return { ...picture, spliceC: picture.spliceC + way * errors.differenceK }
    case 'current': return { ...picture, currentA: between(HEAT_RANGES.currentA, picture.currentA * (1 + way * errors.currentShare)) }
    case 'barrel': {
      const diameterM = between([conductor.diameterM, HEAT_RANGES.diameterM[1]], barrel.diameterM * (1 + way * errors.barrelShare))
      return { ...picture, barrel: { ...barrel, diameterM } }
    }
    case 'emissivity': {
      const shift = (emissivity: number) => between(HEAT_RANGES.emissivity, emissivity + way * errors.emissivity)
      return {
        ...picture, conductor: { ...conductor, emissivity: shift(conductor.emissivity) }, barrel: { ...barrel, emissivity: shift(barrel.emissivity) },
      }
    }
    case 'sun': {
      const sunWPerM2 = between(HEAT_RANGES.sunWPerM2, calm.sunWPerM2 + way * errors.sunWPerM2)
      return { ...picture, calm: { ...calm, sunWPerM2 } }
    }
  }
}
