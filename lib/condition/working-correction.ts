import type { CameraSettings } from './camera'
import { BANDS_UM, type Spectrum } from './radiometry/planck'
import type { WorkingStep } from './working'
import { valueOf } from './working-side'

/** What is put in place of the camera's settings; `emissivityFrom` says in words where the emissivity is from, or is empty. */
export interface TrueSurfaceOf {
  emissivity: number
  emissivityFrom: string
  reflectedC: number
}

const sourceOf = (spectrum: Spectrum): string =>
  (spectrum === 'total' ? 'S: T⁴ law over all wavelengths, T + 273.15; the camera’s band is not noted.' : `S: Planck’s law over ${BANDS_UM[spectrum].join(' to ')} µm.`)

/** How the true temperature comes out of what a camera showed. */
export const correctionStep = (
  of: 'splice' | 'conductor', apparentC: number, { emissivity, reflectedC, spectrum }: Pick<CameraSettings, 'emissivity' | 'reflectedC' | 'spectrum'>, surface: TrueSurfaceOf, trueC: number,
): WorkingStep => ({
  title: `Infrared: true temperature of the ${of}`, formula: 'εc S(Tc) + (1 − εc) S(Trc) = ε S(T) + (1 − ε) S(Tr)',
  inputs: [
    valueOf('Tc', 'as the camera showed it', apparentC, '°C'), valueOf('εc', 'emissivity set in the camera', emissivity),
    valueOf('Trc', 'reflected, set in the camera', reflectedC, '°C'),
    valueOf('ε', `emissivity of the surface${surface.emissivityFrom === '' ? '' : `, ${surface.emissivityFrom}`}`, surface.emissivity),
    valueOf('Tr', 'reflected by the surface', surface.reflectedC, '°C'),
  ],
  result: valueOf('T', 'true temperature', trueC, '°C'), source: sourceOf(spectrum),
})
