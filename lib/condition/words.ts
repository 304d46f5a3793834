import type { ActionCode, AssessmentFlag, ConditionClass, Finding, NextAction } from './types'

/** The class as a screen says it: 'sound' speaks of the current path only. */
export const CLASS_WORDS: Record<ConditionClass, string> = {
  sound: 'Electrically sound', watch: 'Watch', degraded: 'Degraded', urgent: 'Urgent', critical: 'Critical', unknown: 'Not known',
}

export const FINDING_WORDS: Record<Finding, string> = {
  'none': 'nothing', 'discolouration': 'discolouration', 'bulging': 'bulging', 'cracks': 'cracks', 'strands-lifted': 'lifted strands',
  'bent-barrel': 'a bent barrel', 'rust-bleed': 'rust bleed', 'broken-strands': 'broken strands', 'slip': 'slip', 'bow': 'a bowed barrel',
  'bird-caging': 'bird-caging', 'gap': 'a gap', 'radiograph': 'a radiograph finding',
}

export const findingWords = (finding: string): string => FINDING_WORDS[finding as Finding] ?? finding

export const findingsWords = (joined: string): string => joined.split(', ').map(findingWords).join(', ')

const CAUSE_WORDS: Record<string, string> = {
  'low-load': 'too little load', 'low-conductor-rise': 'a conductor colder than the air or hardly warmer', 'wind': 'too much wind',
  'strong-wind': 'strong wind', 'sun': 'direct sun', 'pixels': 'too few pixels over the barrel', 'emissivity': 'bright metal',
  'new-metal': 'new metal after a repair', 'rain': 'rain within the hour', 'angle': 'a flat viewing angle',
  'load-changed': 'load that changed within 30 minutes', 'current-missing': 'no line current noted',
  'rating-missing': 'no rating to compare the load with',
  'not-detectable': 'load and weather in which a bad splice would hardly have shown',
  'conductor-hotter-than-current': 'a conductor hotter than its current makes it',
  'conductor-colder-than-current': 'a conductor colder than its current leaves it',
  'splice-colder-than-model': 'a splice colder than sun and air leave it', 'out-of-range': 'a figure that cannot be right',
  'reflection-exceeds-signal': 'more reflected by the set temperature than the camera saw', 'camera-settings': 'camera settings that cannot be right',
  'conductor-temperature-and-wind-missing': 'neither conductor temperature nor wind noted',
}

/** Why an infrared picture proves nothing of health, in words: 'too little load and strong wind'. */
export function causeWords(causes: readonly string[]): string {
  const told = causes.filter((cause) => cause !== 'wind' || !causes.includes('strong-wind')).map((cause) => CAUSE_WORDS[cause] ?? cause)
  return told.length < 2 ? told.join('') : `${told.slice(0, -1).join(', ')} and ${told.at(-1)}`
}

export const FLAG_WORDS: Record<AssessmentFlag, string> = {
  'partial': 'Not every interface of this fitting has a usable measurement.',
  'provisional': 'Provisional: the conductor reading does not fit the conductor on record.',
  'stale': 'The reading is old or has no date.',
  'conflict': 'Two readings contradict each other; the worse or the newer stands until one is repeated.',
  'span-mismatch': 'Side and conductor were read over different electrode spans; the conductor reading was converted.',
  'conductor-from-table': 'The conductor was not measured; its table value stands in.',
  'conductor-reference-warn': 'The conductor reading is somewhat off its table value.',
  'conductor-reference-suspect': 'The conductor reading is far off its table value.',
  'conductor-references-differ': 'The two conductor readings differ; the lower one is taken.',
  'single-layer-core': 'One aluminium layer over steel: the ratio is taken against the conductor’s dc value.',
  'sides-undeclared': 'Nobody noted which side is which: the class stands, the history per side does not.',
  'asymmetry': 'One side ages before the other.',
  'interface-not-proved': 'An interface lay outside a reading, in whole or in part; that reading does not prove it sound.',
  'edges-computed': 'The class edges were computed for this conductor and barrel.',
  'edges-default-above-75': 'No class edges are set for this section’s operating temperature; cautious ones stand in.',
  'low-test-current': 'There was too little current for the instrument.',
  'ac-dc-mixed': 'Live and dead readings were not mixed.',
  'not-assessed-by-ratio': 'A fitting of this kind is not judged by its resistance ratio.',
  'infrared-inconclusive': 'An infrared picture proves nothing of health.',
  'infrared-only': 'The class rests on infrared alone, which sees the mean of all interfaces and not the worse one.',
  'infrared-conflict': 'Infrared contradicts resistance or an earlier flight; the worse stands until it is settled.',
  'infrared-hot': 'Infrared shows the splice hotter than its conductor.',
  'mechanical-finding': 'There is a mechanical finding for engineering.',
  'held': 'Held: urgent and critical do not fall by themselves.',
  'span-unknown': 'The electrode span was not noted.',
  'ratio-fell': 'The ratio fell without a repair: a measuring fault or moved electrodes.',
  'ratio-jumped': 'The ratio rose faster than contacts age: repeat it, confirm that it is this splice, and look for slip.',
  'implausible': 'A reading cannot be right.',
}

const ACTION_WORDS: Record<ActionCode, string> = {
  'call-control-room': 'Call the control room now',
  'decide-load-or-outage': 'Decide on load relief or an outage with operations',
  'confirm-reading': 'Take a confirming, independent reading',
  'repair': 'Repair',
  'repair-in-outage': 'Repair in the next planned outage, at the latest',
  'look-at-peak-load': 'Look at it again at each peak-load period until it is repaired',
  'record': 'Keep it on record',
  'measure-again': 'Measure again',
  'measure-resistance': 'Measure the resistance of every interface',
  'measure-other-side': 'Measure the other side',
  'repeat-reading': 'Repeat the reading with the electrodes set anew',
  'measure-conductor': 'Measure the conductor beside the splice over the same electrode span',
  'check-conductor-code': 'Check the conductor’s code word and the electrode span',
  'record-electrode-span': 'Note the electrode span and where the electrodes sat',
  'raise-test-current': 'Measure at more current, or dead with the instrument’s own',
  'measure-all-legs': 'Measure every leg of the tap',
  'set-edges': 'Set class edges for this section’s maximum operating temperature',
  'engineer-on-mechanical-state': 'Have engineering judge the mechanical state before anybody loads the conductor',
  'second-reading-or-engineer': 'Take a second independent reading, or have an engineer decide with a reason',
}

const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`

const DAYS_PER_YEAR = 365
const MONTHS_PER_YEAR = 12

/** '30 days', '6 months', '2 years': months and years only where the days are as many, to the day. */
function daysWords(days: number): string {
  const years = days / DAYS_PER_YEAR
  if (Number.isInteger(years)) return plural(years, 'year')
  const months = Math.round(years * MONTHS_PER_YEAR)
  return months > 2 && Math.round((months * DAYS_PER_YEAR) / MONTHS_PER_YEAR) === days ? plural(months, 'month') : plural(days, 'day')
}

/** 'Repair within 72 hours.' */
export function actionSentence(action: NextAction): string {
  const text = ACTION_WORDS[action.code]
  if (action.code === 'call-control-room') return `${text}.`
  if (action.withinHours !== undefined) return `${text} within ${plural(action.withinHours, 'hour')}.`
  return action.withinDays === undefined ? `${text.replace(/, at the latest$/, '')}.` : `${text} within ${daysWords(action.withinDays)}.`
}

/** What no reading of this tool shows; part of every report. */
export const MECHANICAL_CAUTION =
  'Resistance and infrared say nothing of the mechanical state: pull-out, an off-centre crimp or a missing steel sleeve does not show.'

/** Said once, where the decision is made. */
export const ADVICE_CAUTION = 'Advice only: follow the applicable code, the employer’s procedures and a qualified person.'

/** Instead of a figure, wherever one of a held splice is asked for. */
export const NO_TEMPERATURE_WHILE_HELD = 'Not known: the class is held above what the readings now say, so no temperature is drawn from them. Ask the rating engineer.'
export const NO_LIMIT_WHILE_HELD = 'Not known: the class is held, and no figure can be drawn from its finding: it was withdrawn or moved, has no ratio, or is a picture, '
  + 'which shows the mean of a splice and not its worse side. Ask the rating engineer.'

/** Said once where a limit stands: beside it are flows of an emergency, for which it gives no time. */
export const LIMIT_CAUTION = 'Advice for the rating engineer, thermal only: it says nothing of tension, fault current or further ageing. '
  + 'Continuous: it gives no time for an emergency; ask the rating engineer.'
