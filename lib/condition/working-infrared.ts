import type { Context } from './context'
import { alongLineOf } from './body-of-splice'
import { truePicture } from './camera'
import { surfaceWords } from './emissivity-words'
import { alongLineFactor } from './heat/along-line-factor'
import { convectedWPerM, exchangeOf, radiatedWPerM } from './heat/cooling'
import { ohmPerMAt } from './heat/line-resistance'
import { inWind } from './heat/reference-wind'
import { infraredKOf, kAtEmissivity, type InfraredK } from './infrared-error'
import { BRIGHT_EMISSIVITY, WEATHERED_EMISSIVITY } from './infrared-k'
import { pictureOf, type Picture } from './infrared-picture'
import type { Surface, Surfaces } from './surface'
import type { Assessment, Evidence } from './types'
import type { WorkingStep } from './working'
import { correctionStep } from './working-correction'
import { valueOf } from './working-side'

const BALANCE = 'Heat balance of IEEE Std 738-2012, barrel in place of the conductor.'

/** The picture that counts: wind from the conductor, heat that leaves the barrel, k and its error. */
export function infraredSteps({ fusion }: Assessment, evidence: readonly Evidence[], context: Context): WorkingStep[] {
  const source = fusion?.sources.find((one) => one.source === 'infrared')
  if (!source) return []
  for (const one of evidence) {
    if (one.source !== 'infrared' || !source.readingIds.includes(one.readingId)) continue
    const taken = truePicture(one, context.facts, context.policy)
    const picture = pictureOf(one, context, context.facts, taken)
    const found = picture && infraredKOf(picture)
    if (picture && found?.ok && Math.abs(found.value.k / source.k - 1) < 1e-9) return stepsOf(picture, found.value, taken.surfaces, context)
  }
  return []
}

function stepsOf(picture: Picture, found: InfraredK, surfaces: Surfaces, context: Context): WorkingStep[] {
  const { k, uLnK, windMS, windFrom, alongFactor, parts } = found
  const { policy } = context
  const { barrel, conductor, spliceC, conductorC, currentA, calm } = picture
  const exchange = exchangeOf(barrel, { ...calm, windMS, windAngleDeg: 90 })
  const convected = convectedWPerM(exchange, spliceC)
  const radiated = radiatedWPerM(exchange, spliceC)
  const steps: WorkingStep[] = correctionSteps(picture, surfaces)
  if (windFrom === 'conductor' && conductorC !== undefined) steps.push(windStep(picture, conductorC, windMS))
  steps.push(
    {
      title: 'Infrared: heat that air takes from the barrel', formula: 'qc = the greatest of both forced and natural convection',
      inputs: [
        valueOf('D', 'barrel', barrel.diameterM, 'm'), valueOf('V', 'wind across the line', windMS, 'm/s'), valueOf('Ts', 'splice', spliceC, '°C'),
        valueOf('Ta', 'air', calm.ambientC, '°C'), valueOf('He', 'elevation', calm.elevationM, 'm'),
      ],
      result: valueOf('qc', 'convection', convected, 'W/m'), source: BALANCE,
    },
    {
      title: 'Infrared: heat that the barrel radiates', formula: 'qr = 17.8 D ε (((Ts + 273)/100)⁴ − ((Ta + 273)/100)⁴)',
      inputs: [
        valueOf('D', 'barrel', barrel.diameterM, 'm'), valueOf('ε', 'emissivity', barrel.emissivity), valueOf('Ts', 'splice', spliceC, '°C'),
        valueOf('Ta', 'air', calm.ambientC, '°C'),
      ],
      result: valueOf('qr', 'radiation', radiated, 'W/m'), source: BALANCE,
    },
    {
      title: 'Infrared: heat from the sun', formula: 'qs = α Q D',
      inputs: [valueOf('α', 'absorptivity', barrel.absorptivity), valueOf('Q', 'sun on the line', calm.sunWPerM2, 'W/m²'), valueOf('D', 'barrel', barrel.diameterM, 'm')],
      result: valueOf('qs', 'sun', exchange.sunWPerM, 'W/m'), source: BALANCE,
    },
    {
      title: 'Infrared: ratio', formula: 'k = (qc + qr − qs) / (I² R)',
      inputs: [
        valueOf('qc', 'convection', convected, 'W/m'), valueOf('qr', 'radiation', radiated, 'W/m'), valueOf('qs', 'sun', exchange.sunWPerM, 'W/m'),
        valueOf('I', 'current per subconductor, equal shares taken', currentA, 'A'),
        valueOf('R', 'conductor at the temperature of the splice', ohmPerMAt(conductor.resistance, spliceC), 'Ω/m'),
      ],
      result: valueOf('k', 'ratio of the whole splice', k / alongFactor), source: BALANCE,
    },
    ...alongStep(picture, found, context),
    ...surfaceStep(picture, k, surfaces),
    {
      title: 'Infrared: error', formula: 'u = √(sum of the squares), not under the least error of infrared',
      inputs: [
        ...Object.entries(parts).map(([source, part]) => valueOf(source, `part of ${source}`, part)),
        valueOf('least', 'least error of infrared', policy.radiometry.leastULnK),
      ],
      result: valueOf('u', 'standard error of ln k', Math.max(uLnK, policy.radiometry.leastULnK)), source: 'Each input moved by its standard error, both ways.',
    },
  )
  return steps
}

/** Temperatures put right, where the camera's settings were noted. */
function correctionSteps({ shown, spliceC, conductorC }: Picture, { barrel, conductor }: Surfaces): WorkingStep[] {
  if (shown === null) return []
  const { settings, splice, conductor: beside } = shown
  const surfaceOf = (surface: Surface) => ({ emissivity: surface.emissivity, emissivityFrom: surfaceWords(surface), reflectedC: settings.trueReflectedC })
  return [
    ...splice === undefined ? [] : [correctionStep('splice', splice.apparentC, settings, surfaceOf(barrel), spliceC)],
    ...beside === undefined || conductorC === undefined ? [] : [correctionStep('conductor', beside.apparentC, settings, surfaceOf(conductor), conductorC)],
  ]
}

/** What the ratio owes to the emissivity, which nobody measures on a line. */
function surfaceStep(picture: Picture, k: number, { barrel }: Surfaces): WorkingStep[] {
  const [bright, weathered] = [kAtEmissivity(picture, BRIGHT_EMISSIVITY), kAtEmissivity(picture, WEATHERED_EMISSIVITY)]
  if (bright === null || weathered === null) return []
  return [{
    title: 'Infrared: what the emissivity does to the ratio', formula: 'd = 0.1 (kw − kb) / (εw − εb)',
    inputs: [
      valueOf('ε', `emissivity of the barrel taken, ${surfaceWords(barrel)}`, picture.barrel.emissivity), valueOf('k', 'ratio at it', k),
      valueOf('εb', 'bright', BRIGHT_EMISSIVITY), valueOf('kb', 'ratio if bright', bright), valueOf('εw', 'weathered', WEATHERED_EMISSIVITY), valueOf('kw', 'ratio if weathered', weathered),
    ],
    result: valueOf('d', 'of the ratio for 0.1 of emissivity', (0.1 * (weathered - bright)) / (WEATHERED_EMISSIVITY - BRIGHT_EMISSIVITY)),
    source: `The same balance with other surfaces, sunlight taken in alike; ${picture.shown === null ? 'temperatures as they are' : 'temperatures put right for each'}.`,
  }]
}

const FINS = 'f is such that straightened fins of a barrel between two long conductors, both sides alike, give its middle the temperature; conductivity from memory.'

/** Heat along the line: counted where the policy says so, else how much too low the ratio may be for it. */
function alongStep(picture: Picture, { k, windMS, alongFactor }: InfraredK, context: Context): WorkingStep[] {
  const { conductor, barrel, spliceC, currentA, calm } = picture
  const along = picture.along ?? alongLineOf(context, { barrel })
  if (along === null) return []
  const inputs = [
    valueOf('L', 'barrel, length', along.barrelLengthM, 'm'), valueOf('Kj', 'passed along the barrel', along.barrelWMPerK, 'W·m/K'),
    valueOf('Kc', 'passed along the conductor', along.conductorWMPerK, 'W·m/K'),
  ]
  if (picture.along) {
    return [{
      title: 'Infrared: heat along the line', formula: 'k′ = k f',
      inputs: [valueOf('k', 'ratio of the whole splice', k / alongFactor), ...inputs, valueOf('f', 'by the fins', alongFactor)], result: valueOf('k′', 'ratio with heat along the line', k), source: FINS,
    }]
  }
  const factor = alongLineFactor(conductor, barrel, k, spliceC, along, currentA, inWind(calm, windMS))
  if (factor === null) return []
  return [{
    title: `Infrared: heat along the line is left out; the ratio may read ${factor > 1 ? 'low' : 'high'} by so much`,
    formula: 'h = |1 − 1 / f|', inputs: [...inputs, valueOf('f', 'by the fins', factor)],
    result: valueOf('h', 'of the ratio; within the least error of infrared unless larger', Math.abs(1 - 1 / factor)), source: FINS,
  }]
}

const windStep = ({ conductor, currentA, calm }: Picture, conductorC: number, windMS: number): WorkingStep => ({
  title: 'Infrared: wind that the conductor shows', formula: 'V such that qc(V) = I² R(Tc) + qs − qr, of the conductor',
  inputs: [
    valueOf('Tc', 'conductor', conductorC, '°C'), valueOf('Ta', 'air', calm.ambientC, '°C'), valueOf('I', 'current per subconductor', currentA, 'A'),
    valueOf('R', 'conductor at its temperature', ohmPerMAt(conductor.resistance, conductorC), 'Ω/m'), valueOf('D', 'conductor', conductor.diameterM, 'm'),
    valueOf('ε', 'emissivity', conductor.emissivity), valueOf('Q', 'sun on the line', calm.sunWPerM2, 'W/m²'),
  ],
  result: valueOf('V', 'wind across the line', windMS, 'm/s'), source: 'Heat balance of IEEE Std 738-2012, solved for the wind.',
})
