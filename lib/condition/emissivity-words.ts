import { formatRatio, formatTemperature, formatTemperatureDifference, type UnitSystem } from '@/lib/units/format'
import type { CameraNote } from './camera'
import { BRIGHT_EMISSIVITY, WEATHERED_EMISSIVITY } from './infrared-k'
import type { Surface, Surfaces } from './surface'
import type { InfraredNote } from './types'

const AGE_WORDS: Record<Surface['age'], string> = { new: 'new metal', young: 'young metal', weathered: 'weathered metal', stated: 'as stated' }

/** 'weathered metal by policy (age not on record)'. */
export const surfaceWords = ({ age, ageKnown }: Surface): string =>
  (age === 'stated' ? AGE_WORDS.stated : `${AGE_WORDS[age]} by policy${ageKnown ? '' : ' (age not on record)'}`)

/** The camera's setting and the true value apart, what the one made of the other, and what another true value would make of the ratio. */
export function emissivityText(note: InfraredNote, system: UnitSystem): string {
  const { surfaces, spliceTempC } = note
  if (surfaces === undefined || spliceTempC === undefined) return ''
  return [cameraText(note, system), trueText(surfaces), skyText(note, system), correctedText(note, system), ratioText(note)].filter((text) => text !== '').join(' ')
}

function cameraText({ camera }: InfraredNote, system: UnitSystem): string {
  if (camera === undefined) return 'What the camera had set is not noted: the temperatures count as given.'
  const { emissivity, reflectedC, reflectedFrom } = camera
  const reflected = formatTemperature(reflectedC, system)
  return `Camera set to emissivity ${emissivity.toFixed(2)}${reflectedFrom === 'camera' ? ` and ${reflected} reflected` : `; reflected not noted, ${reflected} of the air taken`}.`
}

function trueText({ barrel, conductor }: Surfaces): string {
  const alike = barrel.emissivity === conductor.emissivity && barrel.age === conductor.age
  return `True emissivity of the splice ${barrel.emissivity.toFixed(2)}, ${surfaceWords(barrel)}${alike ? '' : `; of the conductor ${conductor.emissivity.toFixed(2)}, ${surfaceWords(conductor)}`}.`
}

function skyText({ camera }: InfraredNote, system: UnitSystem): string {
  if (camera?.trueReflectedC === undefined || camera.trueReflectedC === camera.reflectedC) return ''
  return `Metal mirrors a sky of ${formatTemperature(camera.trueReflectedC, system)} by policy.`
}

function correctedText({ camera, spliceTempC, overConductorK, trueSpliceC, trueOverConductorK, referenceKind }: InfraredNote, system: UnitSystem): string {
  if (camera === undefined) return ''
  if (trueSpliceC === undefined) return 'With these no true temperature comes out.'
  if (trueSpliceC === spliceTempC && trueOverConductorK === overConductorK) return 'Both are alike: the temperatures stand as read.'
  const reference = referenceKind === 'same-fitting' ? 'the same fitting elsewhere' : 'its conductor'
  const sizeK = trueOverConductorK === undefined ? '' : formatTemperatureDifference(Math.abs(trueOverConductorK), system)
  const over = trueOverConductorK === undefined ? '' : `, ${sizeK} ${trueOverConductorK < 0 ? 'cooler' : 'hotter'} than ${reference}`
  return `Put right, the splice has ${formatTemperature(trueSpliceC, system)}${over}${bandText(camera)}.`
}

const bandText = ({ spectrum }: CameraNote): string => (spectrum === 'total' ? ' (band not noted: all wavelengths taken)' : '')

function ratioText({ k, camera, kIfBright, kIfWeathered }: InfraredNote): string {
  if (k === undefined) return ''
  const others = [
    ...kIfBright === undefined ? [] : [`at ${BRIGHT_EMISSIVITY} (bright) ${formatRatio(kIfBright)}`],
    ...kIfWeathered === undefined ? [] : [`at ${WEATHERED_EMISSIVITY} (weathered) ${formatRatio(kIfWeathered)}`],
  ]
  const same = camera === undefined ? 'with the same temperatures' : 'of the same picture'
  return `Ratio ${formatRatio(k)}${others.length === 0 ? '' : `; ${same} it would be ${others.join(', ')}`}.`
}
