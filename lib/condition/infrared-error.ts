import { err, ok, type Result } from '@/lib/result/result'
import { alongLineFactor } from './heat/along-line-factor'
import { kFromTemperature } from './heat/joint'
import { HEAT_RANGES } from './heat/ranges'
import { effectiveWindMS, inWind } from './heat/reference-wind'
import type { InconclusiveCause } from './infrared-causes'
import { withEmissivities, type Picture, type PictureErrors } from './infrared-picture'

/** Which error makes how much of the error of ln k. */
export type ErrorSource = 'temperature' | 'difference' | 'current' | 'wind' | 'barrel' | 'emissivity' | 'sun' | 'heat along the line'

export interface InfraredK {
  k: number
  /** Standard error of ln k. */
  uLnK: number
  /** Across the line: as the conductor shows it, or as measured. */
  windMS: number
  windFrom: 'conductor' | 'measured'
  /** How many times the ratio without heat along the line it is; 1 where that does not count, or the fins hold no longer. */
  alongFactor: number
  parts: Record<ErrorSource, number>
}

/** A conductor this many errors hotter than still air leaves it still counts as standing in still air. */
const STILL_AIR_ERRORS = 2

const between = (range: readonly [number, number], value: number): number => Math.min(range[1], Math.max(range[0], value))

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
      const atLeast = effectiveWindMS(conductor, conductorC - STILL_AIR_ERRORS * errors.temperatureK, currentA, calm)
      const within = atLeast.ok || ('kind' in atLeast.error && atLeast.error.kind !== 'hotter-than-still-air')
      return within ? ok(0) : err('conductor-hotter-than-current')
    }
  }
}

/** What is put into a picture to see what it does to k; a new object a source and way, each of the same fields, because this runs often. */
interface Shift {
  bothK: number
  spliceK: number
  currentFactor: number
  windFactor: number
  barrelFactor: number
  barrelEmissivity: number
  conductorEmissivity: number
  sunWPerM2: number
}

const NO_SHIFT: Shift = { bothK: 0, spliceK: 0, currentFactor: 1, windFactor: 1, barrelFactor: 1, barrelEmissivity: 0, conductorEmissivity: 0, sunWPerM2: 0 }

/** One error put in: metal of one age is off alike, of two ages each by itself. */
type Moved = ErrorSource | 'emissivity of the barrel' | 'emissivity of the conductor'

function shiftBy(source: Moved, way: 1 | -1, { errors }: Picture): Shift {
  return {
    bothK: source === 'temperature' ? way * errors.temperatureK : 0,
    spliceK: source === 'difference' ? way * errors.differenceK : 0,
    currentFactor: source === 'current' ? Math.max(0, 1 + way * errors.currentShare) : 1,
    windFactor: source === 'wind' ? Math.max(0, 1 + way * errors.windShare) : 1,
    barrelFactor: source === 'barrel' ? Math.max(0, 1 + way * errors.barrelShare) : 1,
    barrelEmissivity: source === 'emissivity' || source === 'emissivity of the barrel' ? way * errors.emissivity : 0,
    conductorEmissivity: source === 'emissivity' || source === 'emissivity of the conductor' ? way * errors.emissivity : 0,
    sunWPerM2: source === 'sun' ? way * errors.sunWPerM2 : 0,
  }
}

const withEmissivityBy = (picture: Picture, { barrelEmissivity, conductorEmissivity }: Shift): Result<Picture, InconclusiveCause> =>
  withEmissivities(picture, picture.barrel.emissivity + barrelEmissivity, picture.conductor.emissivity + conductorEmissivity)

/** By all but the emissivity, which may make other temperatures of what the camera showed. */
function shifted(picture: Picture, shift: Shift): Picture {
  const { conductor, barrel, calm, conductorC } = picture
  const widest = Math.max(conductor.diameterM, HEAT_RANGES.diameterM[1])
  return {
    conductor,
    barrel: {
      diameterM: Math.min(widest, Math.max(conductor.diameterM, barrel.diameterM * shift.barrelFactor)), emissivity: barrel.emissivity, absorptivity: barrel.absorptivity,
    },
    spliceC: picture.spliceC + shift.bothK + shift.spliceK, conductorC: conductorC === undefined ? undefined : conductorC + shift.bothK,
    windMS: picture.windMS, currentA: picture.currentA * shift.currentFactor,
    calm: {
      ambientC: calm.ambientC, elevationM: calm.elevationM,
      sunWPerM2: shift.sunWPerM2 === 0 ? calm.sunWPerM2 : between(HEAT_RANGES.sunWPerM2, calm.sunWPerM2 + shift.sunWPerM2),
    },
    along: picture.along, errors: picture.errors, shown: picture.shown,
  }
}

/** @param known the wind, where the shift leaves the conductor as it was */
function kOf(given: Picture, shift: Shift, known: Result<number, InconclusiveCause> | null): Result<{ k: number; windMS: number }, InconclusiveCause> {
  const surfaces = shift.barrelEmissivity !== 0 || shift.conductorEmissivity !== 0
  const moved = shift === NO_SHIFT ? ok(given) : surfaces ? withEmissivityBy(given, shift) : ok(shifted(given, shift))
  if (!moved.ok) return moved
  const picture = moved.value
  const wind = known ?? windOf(picture)
  if (!wind.ok) return wind
  const windMS = between(HEAT_RANGES.windMS, wind.value * shift.windFactor)
  const k = kFromTemperature(picture.conductor, picture.barrel, picture.spliceC, picture.currentA, inWind(picture.calm, windMS))
  if (k.ok) return ok({ k: k.value, windMS: wind.value })
  if ('quantity' in k.error) return err('out-of-range')
  return err(k.error.kind === 'no-current' ? 'low-load' : 'splice-colder-than-model')
}

const SOURCES: readonly { source: ErrorSource; size: keyof PictureErrors; movesWind: boolean }[] = [
  { source: 'temperature', size: 'temperatureK', movesWind: true }, { source: 'difference', size: 'differenceK', movesWind: false },
  { source: 'current', size: 'currentShare', movesWind: true }, { source: 'wind', size: 'windShare', movesWind: false },
  { source: 'barrel', size: 'barrelShare', movesWind: false }, { source: 'emissivity', size: 'emissivity', movesWind: true },
  { source: 'sun', size: 'sunWPerM2', movesWind: true },
]

const EACH_SURFACE = ['emissivity of the barrel', 'emissivity of the conductor'] as const

/** The fins are straightened, the barrel's grip and length are not known: half of what they change counts as error, and where they hold no longer, this. */
const ALONG_SHARE = 0.5
const U_WITHOUT_FINS = 0.3

/**
 * k of a splice by infrared: wind from its own conductor where that was read (the error of the wind cancels), else as measured.
 * Each error is put in upward and downward and half the change of ln k is its part; what cannot be put in one way counts once.
 */
export function infraredKOf(picture: Picture, wind = windOf(picture)): Result<InfraredK, InconclusiveCause> {
  const found = kOf(picture, NO_SHIFT, wind)
  if (!found.ok) return found
  const { k, windMS } = found.value
  const factor = alongFactorOf(picture, k, windMS)
  const ofAlong = picture.along === null ? 0 : factor === null ? U_WITHOUT_FINS : ALONG_SHARE * Math.abs(Math.log(factor))
  const parts = { 'temperature': 0, 'difference': 0, 'current': 0, 'wind': 0, 'barrel': 0, 'emissivity': 0, 'sun': 0, 'heat along the line': ofAlong }
  let square = ofAlong * ofAlong
  for (const { source, size, movesWind } of SOURCES) {
    if (picture.errors[size] === 0) continue
    const known = movesWind ? null : wind
    let ofSource = 0
    for (const one of source === 'emissivity' && picture.barrel.emissivity !== picture.conductor.emissivity ? EACH_SURFACE : [source]) {
      const up = kOf(picture, shiftBy(one, 1, picture), known)
      const down = kOf(picture, shiftBy(one, -1, picture), known)
      if (!up.ok && !down.ok) return up
      const part = up.ok && down.ok
        ? Math.abs(Math.log(up.value.k / down.value.k)) / 2
        : Math.abs(Math.log((up.ok ? up : down.ok ? down : found).value.k / k))
      ofSource = ofSource === 0 ? part : Math.hypot(ofSource, part)
    }
    parts[source] = ofSource
    square += ofSource * ofSource
  }
  const alongFactor = factor ?? 1
  return ok({
    k: k * alongFactor, uLnK: Math.sqrt(square), windMS, windFrom: picture.conductorC === undefined ? 'measured' : 'conductor', alongFactor, parts,
  })
}

/** k of the same picture had barrel and conductor another emissivity, sunlight taken in alike; null where none can be told. */
export function kAtEmissivity(picture: Picture, emissivity: number): number | null {
  const moved = withEmissivities(picture, emissivity, emissivity)
  if (!moved.ok) return null
  const { conductor, barrel } = moved.value
  const other = { ...moved.value, conductor: { ...conductor, absorptivity: emissivity }, barrel: { ...barrel, absorptivity: emissivity } }
  const found = kOf(other, NO_SHIFT, null)
  return found.ok ? found.value.k * (alongFactorOf(other, found.value.k, found.value.windMS) ?? 1) : null
}

const alongFactorOf = ({ conductor, barrel, spliceC, along, currentA, calm }: Picture, k: number, windMS: number): number | null =>
  (along === null ? 1 : alongLineFactor(conductor, barrel, k, spliceC, along, currentA, inWind(calm, windMS)))
