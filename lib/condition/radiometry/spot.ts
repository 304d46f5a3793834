import { err, ok, type Result } from '@/lib/result/result'
import { exitance, RADIANCE_K, type Spectrum } from './planck'
import { temperatureOf } from './temperature-of'

const ZERO_C_K = 273.15

/** Pixels that a camera lays over an object: its size over what one pixel covers at the distance (mm over mrad times m). */
export const pixelsOver = (objectMm: number, ifovMrad: number, distanceM: number): number => objectMm / (ifovMrad * distanceM)

/** How far away an object still fills so many pixels, m. */
export const greatestDistanceM = (objectMm: number, ifovMrad: number, pixels: number): number => objectMm / (ifovMrad * pixels)

/**
 * What a pixel shows that an object fills to a share and the background (usually the sky) for the rest, both as black bodies, °C.
 * The thinner conductor loses its pixels first, so a splice looks hotter against it than it is.
 * @param fill 0 … 1
 */
export function partlyFilledC(objectC: number, backgroundC: number, fill: number, spectrum: Spectrum): Result<number, 'out-of-range'> {
  const objectK = objectC + ZERO_C_K
  const backgroundK = backgroundC + ZERO_C_K
  if (!isInRange(objectK) || !isInRange(backgroundK) || !(fill >= 0 && fill <= 1)) return err('out-of-range')
  const seenK = temperatureOf(fill * exitance(objectK, spectrum) + (1 - fill) * exitance(backgroundK, spectrum), spectrum)
  return seenK === null ? err('out-of-range') : ok(seenK - ZERO_C_K)
}

const isInRange = (temperatureK: number): boolean => temperatureK >= RADIANCE_K.least && temperatureK <= RADIANCE_K.greatest
