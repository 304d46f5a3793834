import { conductorByCode, greatestDistanceM, pixelsOver, type Assessment, type Policy } from '@/lib/condition'
import type { InconclusiveCause } from '@/lib/condition/infrared-causes'
import {
  formatCurrent, formatNumber, formatOffset, formatPercent, formatRatio, formatTemperatureDifference, formatWind, type UnitSystem,
} from '@/lib/units/format'
import type { Inputs } from './address'
import type { FieldKey, Spoil } from './spoil'

interface Told {
  fields: readonly FieldKey[]
  title: string
  text: string
}

/** Why a picture proves nothing, beside the fields it stands on, each with what would do. */
export function infraredSpoils(of: Inputs, assessment: Assessment, policy: Policy, system: UnitSystem): Spoil[] {
  const [note] = assessment.infrared
  const told = tellings(of, assessment, policy, system)
  const spoils = (note?.inconclusive ?? [])
    .filter((cause, _i, all) => cause !== 'wind' || !all.includes('strong-wind'))
    .map((cause): Spoil => ({ code: cause, ...(told[cause as InconclusiveCause] ?? { fields: [], title: cause, text: cause }) }))
  if (of.air === null) spoils.push({ code: 'air-missing', fields: ['air'], title: 'Not noted: no heat balance', text: 'Without the air’s temperature no heat balance can be drawn. Note it from a thermometer in the shade.' })
  if (of.conductor === null) spoils.push({ code: 'conductor-missing', fields: ['conductor'], title: 'Not given: no heat balance', text: 'Without the conductor no heat balance can be drawn. Give its code word.' })
  const thin = conductorPixels(of, policy)
  if (thin !== null) {
    spoils.push({
      code: 'conductor-pixels', fields: ['tc'], title: 'Too few pixels over the conductor',
      text: `The conductor fills only ${formatNumber(thin, 1)} pixels. Against a cold sky it then reads too cold and the splice too hot beside it. `
        + 'Come closer or take a longer lens.',
    })
  }
  if (of.cemis === null && of.refl !== null) {
    spoils.push({
      code: 'camera-settings-missing', fields: ['cemis'], title: 'Not noted: what is reflected does not count',
      text: 'The camera’s own settings are not noted, so both temperatures count as true ones and the reflected one is not used. Note the settings if they still have to be put right.',
    })
  }
  return spoils
}

function conductorPixels(of: Inputs, policy: Policy): number | null {
  const conductor = of.conductor === null ? null : conductorByCode(of.conductor)
  if (!conductor || of.tc === null || of.dist === null || of.ifov === null) return null
  const pixels = pixelsOver(conductor.diameterMm, of.ifov, of.dist)
  return pixels < policy.infrared.leastPixels ? pixels : null
}

function tellings(of: Inputs, { infrared: [note] }: Assessment, policy: Policy, system: UnitSystem): Partial<Record<InconclusiveCause, Told>> {
  const { infrared, radiometry } = policy
  return {
    'low-load': {
      fields: ['i', 'rating'], title: 'Too little load',
      text: `The line carried less than ${formatPercent(infrared.leastLoadShare)} of its rating: a failing splice would hardly show. Come back at high load.`,
    },
    'low-conductor-rise': {
      fields: ['tc'], title: 'Hardly warmer than the air',
      text: `The conductor is less than ${formatTemperatureDifference(infrared.leastConductorRiseK, system)} over the air, so nothing is heated enough to compare. Come back at high load.`,
    },
    'wind': {
      fields: ['wind'], title: 'Too much wind',
      text: `Over ${formatWind(infrared.windMS, system)} the wind takes the difference away. Come back in less; a hot splice is evidence all the same.`,
    },
    'strong-wind': {
      fields: ['wind'], title: 'Strong wind',
      text: `Over ${formatWind(infrared.strongWindMS, system)} neither hot nor cold proves anything. Come back in less.`,
    },
    'sun': {
      fields: ['sun'], title: 'Direct sun',
      text: `In direct sun a rise of ${formatTemperatureDifference(infrared.sunLeastRiseK, system)} over the air is needed. Come back before sunrise, after sunset or under cloud.`,
    },
    'pixels': pixelsTold(of, policy, system),
    'emissivity': {
      fields: ['emis'], title: 'Bright metal',
      text: `Under an emissivity of ${infrared.leastEmissivity} the camera sees mostly what is reflected. Measure the resistance instead.`,
    },
    'current-missing': {
      fields: ['i'], title: 'Not noted: nothing to judge the heat by',
      text: 'Without the line current nobody can say whether a failing splice would have shown. Ask operations for the load at that minute.',
    },
    'rating-missing': {
      fields: ['rating'], title: 'Not given: load cannot be judged',
      text: 'The load cannot be judged by the heat balance, and there is no rating to compare it with. Give conductor and air, or the section’s rating.',
    },
    'conductor-temperature-and-wind-missing': {
      fields: ['tc', 'wind'], title: 'Neither conductor nor wind noted',
      text: 'The conductor’s own temperature shows the wind at the line. Read it at least {1 m} from the barrel’s mouth, or note the wind.',
    },
    'not-detectable': {
      fields: ['i'], title: 'A bad splice would hardly have shown',
      text: `In this load and weather a splice of ratio ${formatRatio(radiometry.detectK)} would show `
        + `${formatTemperatureDifference(note?.wouldShowK ?? Number.NaN, system)}, and ${formatTemperatureDifference(note?.neededK ?? Number.NaN, system)} are needed. `
        + `Come back at ${enoughText(note?.lineCurrentA, note?.wouldShowK, note?.neededK)}.`,
    },
    'conductor-hotter-than-current': {
      fields: ['tc', 'i'], title: 'Hotter than its current makes it',
      text: 'Even in still air this current does not make the conductor so hot. Look at current, air, emissivity and sun, and whether the spot lay on the conductor.',
    },
    'conductor-colder-than-current': {
      fields: ['tc', 'i'], title: 'Colder than its current leaves it',
      text: 'No wind cools the conductor so far at this current. Look at current, air and emissivity, and whether sky was in the spot.',
    },
    'splice-colder-than-model': {
      fields: ['ts'], title: 'Colder than sun and air leave it',
      text: 'The splice reads colder than air and sun alone would have it. Look at emissivity, reflected temperature and whether sky was in the spot.',
    },
    'out-of-range': {
      fields: ['ts', 'tc'], title: 'Out of what the heat balance knows',
      text: 'With these figures, or a little above or below them, no ratio comes out. Look at temperatures and current again.',
    },
  }
}

/** Differences grow with the square of the current at least. */
function enoughText(currentA?: number, wouldShowK?: number, neededK?: number): string {
  if (currentA === undefined || wouldShowK === undefined || neededK === undefined || !(wouldShowK > 0)) return 'high load'
  return `about ${formatCurrent(Math.ceil((currentA * Math.sqrt(neededK / wouldShowK)) / 10) * 10)} or more`
}

function pixelsTold(of: Inputs, policy: Policy, system: UnitSystem): Told {
  const diameterMm = of.conductor === null ? undefined : conductorByCode(of.conductor)?.diameterMm
  const barrelMm = of.od ?? (diameterMm === undefined ? null : diameterMm * policy.side.typicalBarrelFactor)
  const least = policy.infrared.leastPixels
  if (barrelMm === null || of.ifov === null || of.dist === null) return { fields: ['dist'], title: 'Spot too small', text: 'The barrel fills too few pixels.' }
  return {
    fields: ['dist', 'ifov'], title: 'Too few pixels over the barrel',
    text: `The barrel fills ${formatNumber(pixelsOver(barrelMm, of.ifov, of.dist), 1)} pixels and needs ${least}: come within `
      + `${formatOffset(greatestDistanceM(barrelMm, of.ifov, least), system)}, or take a longer lens.`,
  }
}
