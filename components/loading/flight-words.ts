import type { SunOff } from '@/lib/condition/loading/daylight'
import type { Policy } from '@/lib/condition/policy'
import { formatCurrent, formatNearer, formatOffset, formatPercent, formatRatio, formatTemperatureDifference, formatWind, type UnitSystem } from '@/lib/units/format'
import { formatDate, formatTime } from '@/lib/units/time'
import type { FlightInputs } from './flight-address'
import type { FlightRow } from './flight-model'
import { refusalText } from './words'

/** The unit stays with its number. */
const difference = (differenceK: number, system: UnitSystem): string => formatTemperatureDifference(differenceK, system).replace(' ', '\u00a0')

const STANDING_WORDS: Record<FlightRow['standing'], string> = {
  'fly': 'Would show', 'nearer': 'Would show', 'marginal': 'Marginal', 'do-not-fly': 'Do not fly for this', 'load-unknown': 'Load not known', 'not-reckoned': 'Not worked out',
}

/** Nobody knows whether it shows who does not know from where, nor may a splice that is bad on one side pass for one that shows. */
export function standingText({ standing, verdict, oneSided }: FlightRow, inputs: Pick<FlightInputs, 'dist'>, system: UnitSystem): string {
  if (!verdict || !(standing === 'fly' || standing === 'nearer' || standing === 'marginal')) return STANDING_WORDS[standing]
  const within = `within ${formatNearer(verdict.greatestDistanceM, system)}`
  if (standing === 'marginal') return `${STANDING_WORDS[standing]}, ${within}`
  const shows = standing === 'nearer' ? `would show only ${within}` : inputs.dist === null ? `would show ${within}` : 'would show'
  return oneSided?.wouldShow ? shows.replace('w', 'W') : `Both sides bad: ${shows}; one side: would not`
}

/** Only what shows at the distance that is planned counts; without one, how near it takes stands in the rows. */
export function showsOn(rows: readonly FlightRow[], distanceText: string | null): string {
  const shown = rows.filter(({ standing }) => standing === 'fly')
  const from = distanceText === null ? '' : ` from ${distanceText}`
  const one = shown.filter(({ oneSided }) => oneSided?.wouldShow).length
  return shown.length === 0
    ? `A splice bad on both sides would show nowhere today${from}, and none that is critical on one side only.`
    : `A splice bad on both sides would show on ${shown.length} of ${rows.length} sections${from}; critical on one side only: would show on ${one} of ${rows.length}.`
}

const DAY_MS = 86_400_000

/** What a load of days ago says of today's flight; null where every one is of today or yesterday. */
export function oldLoadText(rows: readonly FlightRow[], inputs: Pick<FlightInputs, 'load'>, nowMs: number): string | null {
  if (inputs.load !== 'last') return null
  const days = rows.flatMap(({ of }) => (of.last_load ? [Math.floor((nowMs - Date.parse(of.last_load.taken_at)) / DAY_MS)] : [])).filter((age) => age > 1)
  const [least, most] = [Math.min(...days), Math.max(...days)]
  return days.length === 0 ? null : `Loads are ${least === most ? most : `${least} to ${most}`} days old: ask for the load of the hour.`
}

/** What only the hour itself can say. */
export const marginalText = ({ verdict }: FlightRow): string =>
  (verdict && verdict.shownK < verdict.neededK ? 'Just too little: ask for the load of the hour.' : 'Just enough: ask for the load of the hour.')

/** A failing side beside a good one, which the whole splice's mean hides. */
export function oneSidedText({ oneSided, standing, verdict }: FlightRow, system: UnitSystem): string {
  if (!oneSided || !verdict || standing === 'do-not-fly' || standing === 'load-unknown') return ''
  const shows = difference(Math.max(0, oneSided.shownK), system)
  return `One side alone at ${formatRatio(oneSided.badK)}: ${oneSided.wouldShow ? `would show, ${shows}` : `would not show, ${shows} of ${difference(verdict.neededK, system)}`}`
}

/** How near barrel and conductor each fill the pixels it takes, where a flight is to be thought of; from farther than the conductor does, its reading has sky in it. */
export function pixelsText({ verdict, standing }: FlightRow, { dist }: Pick<FlightInputs, 'dist'>, policy: Policy, system: UnitSystem): string {
  if (!verdict || standing === 'do-not-fly') return ''
  const { greatestDistanceM: barrelM, conductorDistanceM: conductorM } = verdict
  const pixels = `${policy.infrared.leastPixels} ${policy.infrared.leastPixels === 1 ? 'pixel' : 'pixels'}`
  const mixed = dist !== null && dist > conductorM ? ` From ${formatOffset(dist, system)} the conductor reads mixed with the sky, and the splice looks hotter against it than it is.` : ''
  return `The barrel fills ${pixels} within ${formatNearer(barrelM, system)}, its conductor within ${formatNearer(conductorM, system)}.${mixed}`
}

/** '430 A, 48% of rating'. */
export function amperesText(currentA: number, ratingA: number | null): string {
  return ratingA === null ? `${formatCurrent(currentA)}, rating not known` : `${formatCurrent(currentA)}, ${formatPercent(currentA / ratingA)} of rating`
}

/** How much a bad splice would show, and how much it takes. */
export function showsText({ verdict }: FlightRow, system: UnitSystem): string {
  if (!verdict) return ''
  return `${difference(Math.max(0, verdict.shownK), system)} over its conductor, ${difference(verdict.neededK, system)} needed`
}

/** Why not, in the trade's words. */
export function obstaclesText({ verdict, refusal }: FlightRow, policy: Policy, system: UnitSystem): string {
  if (refusal) return refusalText(refusal)
  if (!verdict) return 'Its conductor is not on record, or not in the table: ask line engineering for its code word.'
  const said = verdict.obstacles.map((one) => ({
    'wind': `wind over ${formatWind(policy.infrared.windMS, system)}`,
    'sun': `direct sun, with the conductor ${difference(verdict.conductorRiseK, system)} over the air, not ${difference(policy.infrared.sunLeastRiseK, system)}`,
    'too-little-load': 'too little load',
  })[one])
  return said.join(', ')
}

/** What would do instead: a load, the hours that had it, the dark. */
export function remedyText(row: FlightRow, inputs: FlightInputs, sunOf: (row: FlightRow) => SunOff, policy: Policy, system: UnitSystem, timeZone: string): string {
  const { verdict, of, standing, currentA } = row
  if (!verdict || standing === 'fly') return ''
  const lens = lensText(row, inputs, system)
  if (standing === 'nearer') return lens
  const said: string[] = []
  if (verdict.obstacles.includes('wind') || inputs.wind > policy.infrared.windMS) {
    return `Wind of ${formatWind(policy.infrared.windMS, system)} or less; then look here again.`
  }
  const { neededLineA, neededInShadeLineA } = verdict
  const most = of.rating_emergency_a ?? of.rating_a ?? Infinity
  if (neededLineA === null) said.push('No load would do in this weather.')
  else if (neededLineA > most) said.push(`${formatCurrent(neededLineA)} would do, which is over its ${of.rating_emergency_a === null ? 'rating' : 'emergency rating'}: not in this weather.`)
  else {
    said.push(`${amperesText(neededLineA, of.rating_a)}, would do.`, hoursText(row.enoughAtMs, timeZone))
  }
  const shadeHelps = neededInShadeLineA !== null && neededInShadeLineA <= most && (neededLineA === null || neededInShadeLineA < 0.98 * neededLineA)
  if (inputs.sky === 'direct' && shadeHelps) {
    const enough = currentA !== null && currentA >= neededInShadeLineA
    said.push(`${enough ? 'This load does' : `${formatCurrent(neededInShadeLineA)} would do`} without sun${darkText(sunOf(row), timeZone)}.`)
  }
  if (standing === 'marginal') said.push(lens)
  return said.filter(Boolean).join(' ')
}

/** When it last carried that. */
function hoursText(atMs: readonly number[], timeZone: string): string {
  const [first] = atMs
  const last = atMs.at(-1)
  if (first === undefined || last === undefined) return ''
  return first === last
    ? `Last carried at ${formatTime(first, timeZone)} on ${formatDate(first, timeZone)}.`
    : `Last carried between ${formatTime(first, timeZone)} and ${formatTime(last, timeZone)} on ${formatDate(last, timeZone)}.`
}

const darkText = (sun: SunOff, timeZone: string): string =>
  (sun.kind === 'between' ? `: it is off from ${formatTime(sun.fromMs, timeZone)} to ${formatTime(sun.toMs, timeZone)}` : '')

/** Which lens would do from where one plans to fly, never a coarser one; how near the own one asks stands with the verdict. */
function lensText({ verdict, ifovForDistanceMrad }: FlightRow, inputs: Pick<FlightInputs, 'dist'>, system: UnitSystem): string {
  if (!verdict || inputs.dist === null || ifovForDistanceMrad === null || inputs.dist <= verdict.greatestDistanceM) return ''
  return `Or a lens of ${Math.floor(ifovForDistanceMrad * 100) / 100} mrad or finer from ${formatOffset(inputs.dist, system)}.`
}
