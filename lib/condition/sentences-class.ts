import { causeWords, findingWords, findingsWords } from './words'
import type { ReasonReader, Sentence } from './reason-reader'

const REFERENCE_WORDS: Record<string, string> = {
  'measured': 'measured on the conductor', 'table': 'by the conductor table', 'dc-equivalent': 'for the conductor without its steel core',
}

/** Whether the fitting's interfaces differ, so that a side's name says which one it is. */
const isNamed = (r: ReasonReader): boolean => !/^(side [AB])?$/.test(r.word('name'))

/** 'Side A', with the name of the interface where it says more. */
const namedSide = (r: ReasonReader): string => (isNamed(r) ? `Side ${r.word('side')} (${r.word('name')})` : r.side())

function classRule(r: ReasonReader): string {
  const measured = r.word('class')
  const chance = `the chance of a ratio over ${r.edge('edge')} is ${r.chance('chance')}`
  if (measured === 'sound') {
    return `The worse side counts as electrically sound: ${chance}, and more than ${r.share('limit')} would make it watch.`
  }
  const atLeast = measured === 'urgent' || measured === 'critical'
  const limit = atLeast ? `${r.share('limit')} or more` : `more than ${r.share('limit')}`
  const worse = r.is('declared', false) ? 'The worse side' : r.side()
  const side = r.is('carried', true) ? 'By infrared, carried to the worse side, the splice' : worse
  return `${side} counts as ${measured}: ${chance}, and ${limit} makes it ${measured}.${nearly(r)}`
}

/** '19% are over 2.75; from 20% it would be critical.' */
function nearly(r: ReasonReader): string {
  if (!r.has('nextClass')) return ''
  const next = r.word('nextClass')
  const from = next === 'urgent' || next === 'critical' ? `${r.share('nextLimit')} or more` : `more than ${r.share('nextLimit')}`
  return ` The chance of a ratio over ${r.edge('nextEdge')} is ${r.chance('nextChance')}: ${from} would make it ${next}.`
}

function sideRatio(r: ReasonReader): string {
  const mean = r.number('repeats') > 1 ? ` (mean of ${r.count('repeats')})` : ''
  const reference = REFERENCE_WORDS[r.word('reference')] ?? ''
  const { watch, degraded, urgent, critical } = r.edges
  const doubtful = [watch, degraded, urgent, critical].some((edge) => r.number('lowRatio') < edge && edge < r.number('highRatio'))
  const range = doubtful
    ? `; nine times in ten the true ratio lies between ${r.plainRatio('lowRatio')} and ${r.plainRatio('highRatio')}`
    : ''
  return `${namedSide(r)}${r.onDate('takenAtMs')}: ${r.uohm('sideUohm')}${mean} against ${r.uohm('conductorUohm')} ${reference}, `
    + `ratio ${r.is('atLeast', true) ? 'at least ' : ''}${r.ratio('ratio')}${range}.`
}

/** What a bad splice would have shown in that flight, and what it would take. */
function wouldHaveShown(r: ReasonReader): string {
  if (!r.has('wouldShowK')) return ''
  const shown = r.number('wouldShowK') > 0 ? `have stood out by ${r.difference('wouldShowK')}` : 'not have stood out'
  const load = r.has('enoughA') ? `; in that weather it takes about ${r.current('enoughA')}` : ''
  return ` A splice of ratio ${r.plainRatio('detectRatio')} would ${shown}, where ${r.difference('neededK')} prove something${load}.`
}

const hotter = (r: ReasonReader, table: string): string =>
  `Infrared${r.has('takenAtMs') ? r.onDate('takenAtMs') : ', undated,'} shows it ${r.difference('overConductorK')} hotter than its own conductor, which the published table `
  + `calls ${table}, and the picture cannot tell how bad it is: ${r.word('class')} until its resistance is read.`

/** Why the class is what it is. */
export const CLASS_SENTENCES: Record<string, Sentence> = {
  'class-rule': classRule,
  'side-ratio': sideRatio,
  'nothing-measured': (r) => r.is('infrared', true)
    ? 'No usable resistance reading yet, and no picture that tells a ratio.'
    : 'No usable resistance reading yet.',
  'incomplete': (r) => r.is('inPart', true)
    ? `${r.side()} reads at least ${r.ratio('ratio')}, but an interface lay only in part between the electrodes, so the splice is not called sound.`
    : `${r.side()} reads ${r.ratio('ratio')}, but the other interface is not ${r.is('proved', true) ? 'measured' : 'proved'}, so the splice is not called sound.`,
  'major-heat': (r) => hotter(r, 'a major discrepancy'),
  'probable-heat': (r) => hotter(r, 'a probable deficiency'),
  'broken-strands': () => 'Broken strands were seen: urgent whatever the resistance says.',
  'not-assessed-by-ratio': (r) => r.is('why', 'shield-wire')
    ? 'A shield-wire splice carries no load current: it is judged by its mechanical state and fault duty, not by a ratio.'
    : 'An automatic splice grips by tension and is not judged by a ratio.',
  'one-side-missing': (r) => r.is('declared', false) && !isNamed(r)
    ? 'One side is not measured, and nobody noted which; nothing is assumed of it.'
    : `${namedSide(r)} is not measured; nothing is assumed of it.`,
  'leg-missing': (r) => `${r.count('measured')} of ${r.count('count')} legs of the tap ${r.number('measured') === 1 ? 'is' : 'are'} measured.`,
  'asymmetry': (r) =>
    `One side reads ${r.plainRatio('asymmetry')} times the other with equal electrode positions; `
    + `over ${r.plainRatio('limit')} one interface is ageing first.`,
  'asymmetry-not-counted': (r) =>
    `One side reads ${r.plainRatio('asymmetry')} times the other; without recorded, equal electrode positions that proves nothing.`,
  'finding': (r) => r.is('finding', 'none')
    ? 'A look at the splice found nothing.'
    : `A look at the splice found ${findingWords(r.word('finding'))}, which speaks for a poor interface.`,
  'mechanical-finding': (r) =>
    `Mechanical finding: ${findingsWords(r.word('findings'))}. It goes to engineering and does not change the ratio.`,
  'infrared-hot': (r) =>
    `Infrared${r.flight()} shows the splice ${r.difference('overConductorK')} hotter than its own conductor; `
    + `a good splice runs cooler.${r.word('causes') ? ` It is no measure of how bad: ${causeWords(r.word('causes').split(', '))}.` : ''}`,
  'infrared-inconclusive': (r) =>
    `Infrared${r.flight()} proves nothing of health: ${causeWords(r.word('causes').split(', '))}.${wouldHaveShown(r)}`,
  'stale': (r) => r.has('years') ? `The oldest reading in use is ${r.oneDecimal('years')} years old, more than twice the interval for this class.` : 'A reading in use has no date.',
  'edges-makeshift': (r) =>
    `This section may run at ${r.limit('maxOperatingC')}, and no class edges are set for that: cautious ones stand in `
    + `(urgent over ${r.plainRatio('urgent')}), and confidence is low.`
    + (r.number('maxOperatingC') > 100 ? ' Above {100 °C} even they may be too mild.' : ''),
  'edges-of-section': (r) =>
    `This section may run at ${r.limit('maxOperatingC')}: the class edges are those set for sections up to ${r.limit('upToC')}.`,
  'edges-computed': (r) =>
    `This section may run at ${r.limit('maxOperatingC')}: the class edges are computed for ${r.word('conductor')} and `
    + `${r.is('barrelAssumed', true) ? 'a typical barrel' : 'its barrel'}, urgent over ${r.plainRatio('urgent')} and critical over ${r.plainRatio('critical')}, `
    + `no later than where the splice would pass ${r.limit('limitC')} and ${r.limit('emergencyC')} at the current that brings the conductor to `
    + `${r.limit('maxOperatingC')} in rating weather (air of ${r.limit('ambientC')}).`,
  'since-repair': (r) => `Readings before the repair${r.onDate('fromMs')} no longer count.`,
  'new-splice-reads': (r) => `With the electrodes where they sat, a new splice reads about ${r.plainRatio('newRatio')}.`,
}
