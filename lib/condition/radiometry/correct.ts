import { err, ok, type Result } from '@/lib/result/result'
import { exitance, RADIANCE_K, type Spectrum } from './planck'
import { temperatureOf } from './temperature-of'

const ZERO_C_K = 273.15

/** Emissivities that a surface in the open can have; outside it a setting is a slip of the hand. */
export const EMISSIVITY = { least: 0.15, greatest: 1 } as const

/** What a camera showed, with the settings it showed it by. */
export interface CameraReading {
  apparentC: number
  emissivity: number
  reflectedC: number
}

/** What is known of the surface and of the air between. */
export interface TrueSurface {
  /** 0.15 … 1. */
  emissivity: number
  /** What the surface mirrors, usually the sky. */
  reflectedC: number
  /** Of the air between, over 0 … 1; absent 1. Only differences from the camera's own correction belong here. */
  transmittance?: number
  /** Absent: as the air mirrored, which only matters where `transmittance` is under 1. */
  atmosphereC?: number
}

export type RadiometryRefusal =
  /** What is mirrored or lies between exceeds the whole signal. */
  | 'reflection-exceeds-signal'
  /** A temperature, emissivity or transmittance that nothing has. */
  | 'out-of-range'

/** What came from a surface to the camera, its settings taken away, and what the surface mirrored as a black body, W/m² in the camera's spectrum. */
export interface Signal {
  leavingWM2: number
  mirroredWM2: number
}

/** @param mirroredC what the surface truly mirrored, °C: as the camera had set, or another sky */
export function signalOf({ apparentC, emissivity, reflectedC }: CameraReading, mirroredC: number, spectrum: Spectrum): Result<Signal, RadiometryRefusal> {
  if (!isTemperature(apparentC) || !isTemperature(reflectedC) || !isTemperature(mirroredC) || !isEmissivity(emissivity)) return err('out-of-range')
  const reflectedWM2 = exitanceAt(reflectedC, spectrum)
  return ok({
    leavingWM2: emissivity * exitanceAt(apparentC, spectrum) + (1 - emissivity) * reflectedWM2,
    mirroredWM2: mirroredC === reflectedC ? reflectedWM2 : exitanceAt(mirroredC, spectrum),
  })
}

/** The temperature in °C of a surface of an emissivity that sends such a signal: W = ε S(T) + (1 − ε) S(T reflected). */
export function surfaceC({ leavingWM2, mirroredWM2 }: Signal, emissivity: number, spectrum: Spectrum): Result<number, RadiometryRefusal> {
  if (!isEmissivity(emissivity)) return err('out-of-range')
  const own = (leavingWM2 - (1 - emissivity) * mirroredWM2) / emissivity
  if (!(own > 0)) return err('reflection-exceeds-signal')
  const temperatureK = temperatureOf(own, spectrum)
  return temperatureK === null ? err('out-of-range') : ok(temperatureK - ZERO_C_K)
}

/**
 * The temperature in °C of a surface from what a camera showed, taking away its settings and putting in the true ones:
 * W = ε S(T) + (1 − ε) S(T reflected), through air (1 − τ) S(T air) + τ W. The settings of the camera go back in with the spectrum in which
 * it sees: the T⁴ law is right to half a kelvin for 7.5 to 14 µm down to an emissivity of 0.6 and wrong by 6 to 40 K for 3 to 5 µm.
 */
export function trueTemperatureC(camera: CameraReading, surface: TrueSurface, spectrum: Spectrum): Result<number, RadiometryRefusal> {
  const { transmittance = 1, atmosphereC = surface.reflectedC } = surface
  const seen = signalOf(camera, surface.reflectedC, spectrum)
  if (!seen.ok) return seen
  if (!isTemperature(atmosphereC) || !(transmittance > 0 && transmittance <= 1)) return err('out-of-range')
  const { leavingWM2, mirroredWM2 } = seen.value
  return surfaceC({ leavingWM2: (leavingWM2 - (1 - transmittance) * exitanceAt(atmosphereC, spectrum)) / transmittance, mirroredWM2 }, surface.emissivity, spectrum)
}

const exitanceAt = (temperatureC: number, spectrum: Spectrum): number => exitance(temperatureC + ZERO_C_K, spectrum)

const isTemperature = (temperatureC: number): boolean =>
  temperatureC + ZERO_C_K >= RADIANCE_K.least && temperatureC + ZERO_C_K <= RADIANCE_K.greatest

const isEmissivity = (emissivity: number): boolean => emissivity >= EMISSIVITY.least && emissivity <= EMISSIVITY.greatest
