import type { Weather } from '@/lib/condition/heat/weather'
import type { Refusal } from '@/lib/condition/heat/ranges'
import type { NotDrawn } from '@/lib/condition/loading/line-joint'
import type { Policy } from '@/lib/condition/policy'
import { NO_LIMIT_WHILE_HELD } from '@/lib/condition/words'
import type { LastLoad } from '@/lib/contract/contract'
import type { LineJointJson } from '@/lib/contract/loading'
import { formatAllowed, formatAlong, formatCurrent, formatNumber, formatPercent, formatRatio, formatTemperatureLimit, formatWholeTemperature, formatWind, type UnitSystem } from '@/lib/units/format'
import { formatDate, formatDateTime } from '@/lib/units/time'
import type { Figure, LoadKind } from './address'
import { leadsWith, type CircuitLimit, type LoadingAnswer } from './answer'
import type { PassedLimit } from './in-force'
import type { SectionJson } from './line-model'
import { allowanceOf, isBlind, isRead, passesAsBelieved, type ReckonedJoint, type ReckonedSection } from './reckon'

export const LOAD_WORDS: Record<LoadKind, string> = {
  last: 'Last known load', peak: 'Expected peak, as imported', contingency: 'Flow after an outage, as imported', rating: 'The section’s rating', emergency: 'The section’s emergency rating', own: 'A figure of my own',
}

export const FIGURE_WORDS: Record<Figure, string> = {
  peak: 'Expected peak', contingency: 'Flow after an outage elsewhere', other: 'Another figure',
}

export const LEFT_OUT_WORDS: Record<NotDrawn, string> = {
  'shield-wire': 'on the shield wire, which carries no load',
  'automatic': 'tension-gripping: its ratio says nothing of its grip',
  'no-barrel': 'of a kind for which no heat balance is drawn',
  'no-conductor': 'on a section whose conductor is not on record: ask line engineering for its code word',
  'conductor-not-in-table': 'on a section whose conductor is not in the table: ask the rating engineer',
  'ratio-out-of-range': 'with a ratio over 100, which no heat balance takes: read it again',
}

/** A temperature in whole degrees; without a rest below 400 °C there is none. */
export const degreesText = (temperatureC: number | null, system: UnitSystem): string =>
  temperatureC === null ? 'no steady temperature' : formatWholeTemperature(temperatureC, system)

/** '74 °C believed, at the upper ratio 88 °C'. */
export function heatText({ of, believedC, upperC }: Pick<ReckonedJoint, 'of' | 'believedC' | 'upperC'>, system: UnitSystem): string {
  if (isBlind({ of })) return 'temperature not known'
  if (!isRead({ of })) return `taken under ${degreesText(upperC, system)}`
  const believed = degreesText(believedC, system)
  const upper = degreesText(upperC, system)
  return believed === upper ? believed : `${believed} believed, at the upper ratio ${upper}`
}

/** What a splice allows, as its sheet leads with it: the limit in force, whom to ask where one has lapsed, else what is advised. */
export function allowsText(joint: Pick<ReckonedJoint, 'of' | 'spliceA'>, section: Pick<ReckonedSection, 'section'>): string {
  const { limit } = joint.of
  if (limit?.standing === 'in-force') return `${formatAllowed(limit.line_a)}, in force`
  return limit?.standing === 'ask-engineer' ? 'ask the rating engineer' : advisedText(joint, section)
}

/** What stands after it: 'advised 686 A', and first of all where that lies below the limit in force. */
export function besideText(joint: Pick<ReckonedJoint, 'of' | 'spliceA'>, section: Pick<ReckonedSection, 'section'>): string {
  const { limit } = joint.of
  if (limit === null) return ''
  const figure = formatAllowed(limit.line_a)
  if (limit.standing === 'proposed' || limit.standing === 'agreed') return `advised; ${figure} is ${limit.standing}, not in force`
  const advised = `advised ${advisedText(joint, section)}`
  if (limit.standing === 'ask-engineer') return `the limit of ${figure} has lapsed; ${advised}`
  const allows = allowanceOf(joint, section)
  return allows && Math.floor(allows.lineA) < Math.floor(limit.line_a) ? `${advised}, below it: ask the rating engineer` : advised
}

/** '900 A, section': never over the section, and no figure where its sheet gives none. */
function advisedText(joint: Pick<ReckonedJoint, 'of' | 'spliceA'>, section: Pick<ReckonedSection, 'section'>): string {
  const allows = allowanceOf(joint, section)
  if (allows) return allows.by === 'section' ? `${formatAllowed(allows.lineA)}, section` : formatAllowed(allows.lineA)
  return isRead(joint) ? 'not known: held, ask the rating engineer' : 'not known'
}

/** 'not read conclusively, taken to lie under 1.40'. */
export function basisText({ of }: Pick<ReckonedJoint, 'of'>): string {
  const ratio = of.k === of.upper_k ? formatRatio(of.k) : `${formatRatio(of.k)}, upper ${formatRatio(of.upper_k)}`
  if (isBlind({ of })) return `${of.class} ${of.basis === 'contradicted' ? 'by more than its ratio tells' : 'without a ratio'}: ask the rating engineer`
  return of.basis === 'unread' ? `not read conclusively, taken to lie under ${formatRatio(of.upper_k)}` : of.basis === 'finding' ? `ratio believed ${ratio}, of the finding that holds its class` : `ratio believed ${ratio}`
}

/** 'circuit 6910, Juniper tap'; the main section needs no name. */
export const sectionText = ({ circuit, name }: Pick<SectionJson, 'circuit' | 'name'>): string => (name === 'main' ? circuit : `${circuit}, ${name}`)

const qualityText = ({ quality }: LastLoad): string => (quality === 'estimated' ? ', estimated' : quality === null ? ', quality not stated' : '')

/** Where a section's current comes from, with its time and quality. */
export function currentText({ section: { of }, currentA }: ReckonedSection, kind: LoadKind, share: number, name: string, timeZone: string): string {
  if (currentA === null) return NO_CURRENT[kind]
  const of100 = share === 1 ? '' : `, ${formatPercent(share)} of it`
  if (kind === 'last' && of.last_load) {
    return `${formatCurrent(currentA)}: last known load, ${formatDateTime(Date.parse(of.last_load.taken_at), timeZone)}${qualityText(of.last_load)}${of100}`
  }
  const planned = kind === 'peak' ? of.expected_peak : kind === 'contingency' ? of.post_contingency : null
  const standsFor = planned ? `, for ${formatDateTime(Date.parse(planned.taken_at), timeZone)}` : ''
  return `${formatCurrent(currentA)}: ${name}${standsFor}${of100}`
}

const NO_CURRENT: Record<LoadKind, string> = {
  last: 'Its load is not known: import loads, or take another current.',
  peak: 'Its expected peak is not known: import it with the loads, or write a figure of your own.',
  contingency: 'Its flow after an outage elsewhere is not known: import it with the loads, or write a figure of your own.',
  rating: 'It has no rating on record: ask engineering, or take another current.',
  emergency: 'It has no emergency rating on record: ask engineering, or take another current.',
  own: 'Write the current per phase.',
}

const QUANTITY_WORDS: Partial<Record<Refusal['quantity'], string>> = {
  currentA: 'current per subconductor, A', ambientC: 'air, °C', windMS: 'wind, m/s', sunWPerM2: 'sun, W/m²', windAngleDeg: 'angle of the wind',
}

/** Why a section could not be reckoned. */
export const refusalText = ({ quantity, value, least, greatest }: Refusal): string =>
  `The ${QUANTITY_WORDS[quantity] ?? quantity} of ${value === null ? 'no number' : Math.round(value)} lies outside ${least} to ${greatest}, where the heat balance holds.`

/** 'Air 25 °C, wind 0.6 m/s at 90° to the line, sun 1,000 W/m², elevation 1,000 m, emissivity 0.5.' @param elevationsM of the sections it holds on */
export const weatherText = (
  { ambientC, windMS, windAngleDeg, sunWPerM2, elevationM }: Weather, { ratingWeather: { emissivity } }: Policy, system: UnitSystem, elevationsM: readonly number[] = [elevationM],
): string =>
  `Air ${formatTemperatureLimit(ambientC, system)}, wind ${formatWind(windMS, system)} at ${Math.round(windAngleDeg)}° to the line, sun ${formatNumber(sunWPerM2, 0)} W/m², `
  + `elevation ${elevationText(elevationsM, system)}, emissivity ${emissivity}.`

/** '1,000 m', or '400 m to 1,900 m' where sections lie at different heights. */
function elevationText(elevationsM: readonly number[], system: UnitSystem): string {
  const [least, most] = [formatAlong(Math.min(...elevationsM), system), formatAlong(Math.max(...elevationsM), system)]
  return least === most ? most : `${least} to ${most}`
}

/** '14 splices would pass 93 °C at the section’s rating, 900 A.' Of splices that nobody read it says nothing. */
export function passText({ over, reckoned, share }: Pick<LoadingAnswer, 'over' | 'reckoned' | 'share'>, kind: LoadKind, policy: Policy, system: UnitSystem, timeZone: string): string {
  const drawn = reckoned.filter((one) => one.drawn)
  if (drawn.length === 0) return ''
  const limit = degreesText(policy.limit.temperatureC, system)
  const at = loadText(drawn, kind, share, timeZone)
  const would = over.filter(({ joint }) => passesAsBelieved(joint, policy)).length
  const could = over.length - would
  const splices = drawn.flatMap(({ joints }) => joints)
  const read = splices.filter(isRead).length
  if (read === 0) return splices.length === 0 ? '' : `Not known: none of ${splices.length} ${splices.length === 1 ? 'splice' : 'splices'} was read, and nothing can be said of them.`
  const head = would === 0 ? `None of ${read} read ${read === 1 ? 'splice' : 'splices'}` : `${would} ${would === 1 ? 'splice' : 'splices'}`
  return could === 0 ? `${head} would pass ${limit} at ${at}.` : `${head} would pass ${limit}, ${could} ${would === 0 ? '' : 'more '}could, at the upper ratio, at ${at}.`
}

/** 'the load of 29 Oct 2026, 412 A': a current without its date is soon taken for that of now. */
function loadText(drawn: readonly ReckonedSection[], kind: LoadKind, share: number, timeZone: string): string {
  const [only] = drawn
  const amperes = drawn.length === 1 && only?.currentA != null ? `, ${formatCurrent(only.currentA)}` : ''
  const of100 = share === 1 ? '' : `${formatPercent(share)} of `
  const dates = [...new Set(drawn.flatMap(({ section: { of } }) => (of.last_load ? [of.last_load.taken_at] : [])).sort().map((at) => formatDate(Date.parse(at), timeZone)))]
  const [first] = dates
  const last = first === undefined ? 'the last known load' : dates.length === 1 ? `the load of ${first}` : `loads of ${first} to ${dates.at(-1)}`
  const name: Record<LoadKind, string> = {
    last, peak: 'the expected peak', contingency: 'the flow after an outage elsewhere', rating: 'the section’s rating',
    emergency: 'the section’s emergency rating', own: 'the figure typed in',
  }
  return `${of100}${name[kind]}${amperes}`
}

/** '2310: 500 A per phase, limit in force of splice 2310-088; advised 686 A.', or what is advised, or whom to ask first. */
export function limitText(of: CircuitLimit, rating: boolean, policy: Policy, system: UnitSystem): string {
  const { circuit, rated, inForce, mayBeLower, lapsed: [lapsed] } = of
  const leads = leadsWith(of)
  if (leads === 'ask-engineer' && lapsed) {
    return `${circuit}: ask the rating engineer, for the limit of ${formatAllowed(lapsed.lineA)} of splice ${lapsed.of.splice} has lapsed. ${limitText({ ...of, lapsed: [] }, rating, policy, system)}`
  }
  if (!inForce) return advisedLimitText(of, rating, policy, system)
  const force = `limit in force of splice ${inForce.of.splice}`
  if (leads === 'advised') {
    return `${advisedLimitText(of, rating, policy, system)} That is below the ${force}, ${formatAllowed(inForce.lineA)}: ask the rating engineer.`
  }
  const [worst] = mayBeLower
  const others = worst ? `; ${worst.splice} ${unknownWhy(worst)} and may be lower. Ask the rating engineer.` : rated ? `; ${besideForce(rated)}.` : '.'
  return `${sectionText(inForce.section.section.of)}: ${worst ? 'not more than ' : ''}${formatAllowed(inForce.lineA)} per phase, ${force}${others}`
}

const besideForce = ({ limit, joint }: NonNullable<CircuitLimit['rated']>): string =>
  limit.limitedBy === 'section' ? `no splice that was read is advised less than its section, ${formatAllowed(limit.sectionA)}` : `advised ${formatAllowed(limit.lineA)}, by splice ${joint.of.splice}`

/** 'Splice 2310-088 would pass its limit in force, 500 A, by 46 A.' Empty where none would. */
export function passedLimitText([first, ...more]: readonly PassedLimit[]): string {
  if (!first) return ''
  const others = more.length === 0 ? '' : `, and ${more.length} more ${more.length === 1 ? 'limit' : 'limits'} would be passed: ${more.map(({ of }) => of.splice).join(', ')}`
  return `Splice ${first.of.splice} would pass its ${first.lapsed ? 'lapsed limit' : 'limit in force'}, ${formatAllowed(first.lineA)}, by ${formatCurrent(first.overA)}${others}.`
}

/** '1420: 528 A per phase, limited by splice 1420-080 at 93 °C.' In any other weather: 'limit at rating weather stays 528 A per phase'. */
function advisedLimitText({ circuit, rated: found, mayBeLower }: CircuitLimit, rating: boolean, policy: Policy, system: UnitSystem): string {
  const [worst, ...more] = mayBeLower
  if (worst) {
    return found
      ? `${circuit}: not more than ${formatAllowed(found.limit.lineA)} per phase, by splice ${found.joint.of.splice}; ${worst.splice} ${unknownWhy(worst)} and may be lower`
        + `${more.length === 0 ? '' : `, as may ${more.length} more`}. Ask the rating engineer.`
      : `${circuit}: limit not known, for ${worst.splice} ${unknownWhy(worst)}${more.length === 0 ? '' : `, and so of ${more.length} more`}. Ask the rating engineer.`
  }
  if (!found) return ''
  const { joint, section, limit } = found
  const name = `${sectionText(section.section.of)}:${rating ? '' : ' limit at rating weather stays'}`
  return limit.limitedBy === 'splice'
    ? `${name} ${formatAllowed(limit.lineA)} per phase, limited by splice ${joint.of.splice} at ${degreesText(policy.limit.temperatureC, system)}.`
    : `${name} ${formatAllowed(limit.sectionA)} per phase, its section; no read splice limits it sooner.`
}

/** What other weather would allow: never the figure that leads, and no power beside it. */
export function whatIfText({ found, rated, mayBeLower }: CircuitLimit): string {
  if (!found || mayBeLower.length > 0) return ''
  const less = rated !== null && found.limit.lineA < rated.limit.lineA ? ' only' : ''
  return `In the weather taken${less} ${formatAllowed(found.limit.lineA)} per phase, not a rating.`
}

/** Why no figure is given, after the splice's name. */
export const unknownWhy = (of: LineJointJson): string =>
  of.basis === 'contradicted' ? `is ${of.class} by more than its ratio tells`
    : of.held && of.basis !== 'unread' ? `is held ${of.class} above what its readings now say`
    : of.basis === 'unread' ? `is ${of.class} without a ratio to reckon with` : `is ${of.class} by pictures, which show the mean of a splice and not its worse side`

/** What is to be done about it, in the words of the splice's own sheet. */
export const unknownRemedy = ({ basis, held }: LineJointJson): string =>
  basis === 'contradicted' ? 'Not known: measure the resistance of every interface again, and ask the rating engineer.'
    : basis === 'finding' || (held && basis === 'read') ? NO_LIMIT_WHILE_HELD
    : basis === 'unread' ? 'Not known: no usable ratio has been read. Until it is, ask the rating engineer.' : 'Not known: measure the resistance of every interface.'

/** Whatever a load makes of it: '2 critical, 12 urgent on this circuit: this does not clear them.' */
export function standingText({ standing: { critical, urgent, unknown }, limits }: Pick<LoadingAnswer, 'standing' | 'limits'>): string {
  const unread = unknown === 0 ? '' : `, ${unknown} not known`
  return `${critical} critical, ${urgent} urgent${unread} on ${limits.length === 1 ? 'this circuit' : 'these circuits'}: ${critical + urgent + unknown === 0 ? 'this clears none that comes' : 'this does not clear them'}.`
}
