import { trueTemperatureC, type Policy, type RadiometryRefusal, type WorkingStep } from '@/lib/condition'
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
  const corrected = (name: string, apparentC: number | null): number | undefined | { refusal: RadiometryRefusal } => {
    if (apparentC === null || inputs.cemis === null) return undefined
    const camera = { apparentC, emissivity: inputs.cemis, reflectedC: cameraC }
    const found = trueTemperatureC(camera, { emissivity, reflectedC: surfaceC }, inputs.band)
    if (!found.ok) return { refusal: found.error }
    steps.push(step(name, camera, emissivity, surfaceC, inputs.band, found.value))
    return found.value
  }
  const spliceC = corrected('splice', inputs.ts)
  const conductorC = corrected('conductor', inputs.tc)
  if (typeof spliceC === 'object') return { steps: [], refusal: spliceC.refusal }
  if (typeof conductorC === 'object') return { steps: [], refusal: conductorC.refusal }
  return { spliceC, conductorC, steps, refusal: null }
}

function step(
  name: string, camera: { apparentC: number; emissivity: number; reflectedC: number }, emissivity: number, reflectedC: number,
  band: Inputs['band'], trueC: number,
): WorkingStep {
  return {
    title: `Infrared: true temperature of the ${name}`, formula: 'εc S(Tc) + (1 − εc) S(Trc) = ε S(T) + (1 − ε) S(Tr)',
    inputs: [
      { symbol: 'Tc', meaning: 'as the camera showed it', value: camera.apparentC, unit: '°C' },
      { symbol: 'εc', meaning: 'emissivity set in the camera', value: camera.emissivity, unit: '' },
      { symbol: 'Trc', meaning: 'reflected, set in the camera', value: camera.reflectedC, unit: '°C' },
      { symbol: 'ε', meaning: 'emissivity of the surface', value: emissivity, unit: '' },
      { symbol: 'Tr', meaning: 'reflected by the surface', value: reflectedC, unit: '°C' },
    ],
    result: { symbol: 'T', meaning: 'true temperature', value: trueC, unit: '°C' },
    source: `S: Planck’s law over ${band === 'lw' ? '7.5 to 14 µm' : '3 to 5 µm'}.`,
  }
}
