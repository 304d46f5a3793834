import { err, ok, type Result } from '@/lib/result/result'
import type { InconclusiveCause } from './infrared-causes'
import type { Policy } from './policy'
import { signalOf, surfaceC, type RadiometryRefusal, type Signal } from './radiometry/correct'
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

/** One temperature as the camera showed it, and the signal that it had made it of. */
interface Sight {
  apparentC: number
  signal: Result<Signal, RadiometryRefusal>
}

/** What a camera showed and had set. Signals are worked out once, because each other emissivity asks what temperatures they would be. */
export interface Shown {
  settings: CameraSettings
  splice?: Sight
  conductor?: Sight
}

/** What a picture says once the camera's settings are taken away and the true surfaces put in. */
export interface TruePicture {
  surfaces: Surfaces
  /** Null where nobody noted what the camera had set: then the temperatures stand as given. */
  shown: Shown | null
  /** Absent where `shown` is null, or where no temperature comes out. */
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

export const shownBy = (settings: CameraSettings, { spliceTempC, conductorTempC }: Temperatures): Shown =>
  ({ settings, splice: sightOf(spliceTempC, settings), conductor: sightOf(conductorTempC, settings) })

const sightOf = (apparentC: number | undefined, { emissivity, reflectedC, trueReflectedC, spectrum }: CameraSettings): Sight | undefined =>
  (apparentC === undefined ? undefined : { apparentC, signal: signalOf({ apparentC, emissivity, reflectedC }, trueReflectedC, spectrum) })

/** @param facts what is known of the surface */
export function truePicture(evidence: InfraredEvidence, facts: SpliceFacts, policy: Policy): TruePicture {
  const surfaces = surfacesOf(evidence, facts, policy)
  const settings = settingsOf(evidence, policy)
  if (settings === null) return { surfaces, shown: null, evidence }
  const shown = shownBy(settings, evidence)
  const corrected = correctedBy(shown, surfaces.barrel.emissivity, emissivityOfReference(evidence, surfaces))
  if (!corrected.ok) return { surfaces, shown, cause: corrected.error, evidence }
  const { spliceTempC, conductorTempC } = corrected.value
  return { surfaces, shown, corrected: corrected.value, evidence: { ...evidence, spliceTempC, conductorTempC } }
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
  { settings, splice, conductor }: Shown, barrel: number, reference: number | null,
): Result<Temperatures, NonNullable<TruePicture['cause']>> {
  const spliceC = splice === undefined ? NOT_READ : correctedC(splice, settings, barrel)
  if (!spliceC.ok) return spliceC
  const conductorC = conductor === undefined ? NOT_READ : reference === null ? ok(conductor.apparentC) : correctedC(conductor, settings, reference)
  return conductorC.ok ? ok({ spliceTempC: spliceC.value, conductorTempC: conductorC.value }) : conductorC
}

const NOT_READ = ok(undefined)

function correctedC({ apparentC, signal }: Sight, { emissivity, reflectedC, trueReflectedC, spectrum }: CameraSettings, surface: number): Result<number, NonNullable<TruePicture['cause']>> {
  // A camera that was set right is believed to the last digit.
  if (emissivity === surface && reflectedC === trueReflectedC) return ok(apparentC)
  const found = signal.ok ? surfaceC(signal.value, surface, spectrum) : signal
  if (found.ok) return found
  return err(found.error === 'reflection-exceeds-signal' ? found.error : 'camera-settings')
}
