import { err, ok, type Result } from '@/lib/result/result'
import type { InconclusiveCause } from './infrared-causes'
import type { Policy } from './policy'
import { trueTemperatureC } from './radiometry/correct'
import type { Spectrum } from './radiometry/planck'
import { surfacesOf, type Surfaces } from './surface'
import type { InfraredEvidence, SpliceFacts } from './types'

/** By what a camera turned what it saw into a temperature. */
export interface CameraSettings {
  emissivity: number
  reflectedC: number
  /** 'air' where the camera's own reflected temperature was not noted. */
  reflectedFrom: 'camera' | 'air'
  /** What the surfaces truly mirrored, °C: as stated, else a sky colder than the air where the policy takes one, else as the camera had set. */
  trueReflectedC: number
  /** All wavelengths where no band was noted. */
  spectrum: Spectrum
}

/** As an assessment keeps them; one of an older engine does not say what was truly reflected. */
export type CameraNote = Omit<CameraSettings, 'trueReflectedC'> & Partial<Pick<CameraSettings, 'trueReflectedC'>>

type Temperatures = Pick<InfraredEvidence, 'spliceTempC' | 'conductorTempC'>

/** What a picture says once the camera's settings are taken away and the true surfaces put in. */
export interface TruePicture {
  surfaces: Surfaces
  /** Null where nobody noted what the camera had set: then the temperatures stand as given. */
  settings: CameraSettings | null
  /** Absent where `settings` is null, or where no temperature comes out. */
  corrected?: Temperatures
  /** Why none comes out. */
  cause?: Extract<InconclusiveCause, 'reflection-exceeds-signal' | 'camera-settings'>
  /** With the temperatures that count: corrected, else as given. */
  evidence: InfraredEvidence
}

/** Null where the emissivity was not noted, or nothing tells what was reflected. */
export function settingsOf({ emissivity, reflectedC, trueReflectedC, ambientC, band }: InfraredEvidence, { radiometry }: Pick<Policy, 'radiometry'>): CameraSettings | null {
  const reflected = reflectedC ?? ambientC
  if (emissivity === undefined || reflected === undefined) return null
  const byPolicyC = radiometry.reflectsSky && ambientC !== undefined ? ambientC - radiometry.skyBelowAirK : reflected
  return {
    emissivity, reflectedC: reflected, reflectedFrom: reflectedC === undefined ? 'air' : 'camera', trueReflectedC: trueReflectedC ?? byPolicyC,
    spectrum: band ?? 'total',
  }
}

/** @param facts what is known of the surface */
export function truePicture(evidence: InfraredEvidence, facts: SpliceFacts, policy: Policy): TruePicture {
  const surfaces = surfacesOf(evidence, facts, policy)
  const settings = settingsOf(evidence, policy)
  if (settings === null) return { surfaces, settings, evidence }
  const corrected = correctedBy(settings, evidence, surfaces.barrel.emissivity, emissivityOfReference(evidence, surfaces))
  if (!corrected.ok) return { surfaces, settings, cause: corrected.error, evidence }
  return { surfaces, settings, corrected: corrected.value, evidence: { ...evidence, ...corrected.value } }
}

/** Another fitting is taken to be as old as this one; a thermometer's air has no surface that a camera could see. */
function emissivityOfReference({ referenceKind }: InfraredEvidence, { barrel, conductor }: Surfaces): number | null {
  if (referenceKind === 'air') return null
  return referenceKind === 'same-fitting' ? barrel.emissivity : conductor.emissivity
}

/**
 * Both temperatures of a picture as surfaces of these emissivities would have to be for the camera to show them.
 * @param reference null: the other temperature stands
 */
export function correctedBy(
  settings: CameraSettings, { spliceTempC, conductorTempC }: Temperatures, barrel: number, reference: number | null,
): Result<Temperatures, NonNullable<TruePicture['cause']>> {
  const splice = spliceTempC === undefined ? ok(undefined) : correctedC(spliceTempC, settings, barrel)
  if (!splice.ok) return splice
  const conductor = conductorTempC === undefined || reference === null ? ok(conductorTempC) : correctedC(conductorTempC, settings, reference)
  return conductor.ok ? ok({ spliceTempC: splice.value, conductorTempC: conductor.value }) : conductor
}

function correctedC(apparentC: number, { emissivity, reflectedC, trueReflectedC, spectrum }: CameraSettings, surface: number): Result<number, NonNullable<TruePicture['cause']>> {
  // A camera that was set right is believed to the last digit.
  if (emissivity === surface && reflectedC === trueReflectedC) return ok(apparentC)
  const found = trueTemperatureC({ apparentC, emissivity, reflectedC }, { emissivity: surface, reflectedC: trueReflectedC }, spectrum)
  if (found.ok) return found
  return err(found.error === 'reflection-exceeds-signal' ? found.error : 'camera-settings')
}
