import { trueTemperatureC, type Policy, type RadiometryRefusal, type WorkingStep } from '@/lib/condition'
import { correctionStep } from '@/lib/condition/working-correction'
import type { Inputs } from './address'

/** Temperatures of splice and conductor as the heat balance needs them: without the camera's settings, with those of the surface. */
export interface TrueTemperatures {
  spliceC?: number
  conductorC?: number
  /** How the correction went; empty where none was asked for. */
  steps: WorkingStep[]
  refusal: RadiometryRefusal | 'reflected-missing' | null
}

type Shown = Pick<Inputs, 'ts' | 'tc' | 'air' | 'emis' | 'refl' | 'cemis' | 'crefl' | 'band'>

const known = (value: number | null): number | undefined => value ?? undefined

/** Without the camera's own settings the temperatures count as true ones. A reflected temperature that nobody noted is taken as set in the camera, else as the air. */
export function trueTemperatures(inputs: Shown, policy: Policy): TrueTemperatures {
  const asShown = { spliceC: known(inputs.ts), conductorC: known(inputs.tc), steps: [] }
  if (inputs.cemis === null) return { ...asShown, refusal: null }
  const cameraC = inputs.crefl ?? inputs.air
  const surfaceC = inputs.refl ?? cameraC
  if (cameraC === null || surfaceC === null) return { ...asShown, refusal: 'reflected-missing' }
  const emissivity = inputs.emis ?? policy.radiometry.emissivity
  const steps: WorkingStep[] = []
  const corrected = (name: 'splice' | 'conductor', apparentC: number | null): number | undefined | { refusal: RadiometryRefusal } => {
    if (apparentC === null || inputs.cemis === null) return undefined
    const camera = { apparentC, emissivity: inputs.cemis, reflectedC: cameraC }
    const found = trueTemperatureC(camera, { emissivity, reflectedC: surfaceC }, inputs.band)
    if (!found.ok) return { refusal: found.error }
    steps.push(correctionStep(name, apparentC, { ...camera, spectrum: inputs.band }, { emissivity, emissivityFrom: inputs.emis === null ? 'weathered metal by policy' : '', reflectedC: surfaceC }, found.value))
    return found.value
  }
  const spliceC = corrected('splice', inputs.ts)
  const conductorC = corrected('conductor', inputs.tc)
  if (typeof spliceC === 'object') return { steps: [], refusal: spliceC.refusal }
  if (typeof conductorC === 'object') return { steps: [], refusal: conductorC.refusal }
  return { spliceC, conductorC, steps, refusal: null }
}
