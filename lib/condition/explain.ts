import { formatEdge, formatRatio, formatTemperature, formatTemperatureDifference, type UnitSystem } from '@/lib/units/format'
import { localText } from '@/lib/units/local-text'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { riseAtRating, windFactor } from './load-correction'
import { emissivityText } from './emissivity-words'
import { chanceText, loadText, readReason, type Words } from './reason-reader'
import { isPastReMeasure } from './past-re-measure'
import { CRITERIA_FROM_K } from './published-criteria'
import { CLASS_SENTENCES } from './sentences-class'
import { INFRARED_SENTENCES } from './sentences-infrared'
import { OUTLOOK_SENTENCES } from './sentences-outlook'
import { READING_SENTENCES } from './sentences-reading'
import type { Assessment, AssessmentFlag, InfraredNote, Reason, ShownClass } from './types'
import { isAtLeast } from './within-crimp'
import { actionSentence, ADVICE_CAUTION, causeWords, CLASS_WORDS, FLAG_WORDS, MECHANICAL_CAUTION } from './words'

export interface ExplainOptions {
  unitSystem: UnitSystem
  /** IANA zone for dates; UTC without one. */
  timeZone?: string
  /** What is on show, where it may be held above what the evidence says. */
  shown?: ShownClass
  /** The moment at which it is read, ms since 1970 UTC: what was sound and is to be measured again by then is said in the past. */
  nowMs?: number
}

export interface Explanation {
  headline: string
  /** Why, the most telling first; the last one says what no reading shows. */
  reasons: string[]
  nextActions: string[]
  flags: { code: AssessmentFlag; text: string }[]
  caution: string
}

/** An assessment in the trade's words and the user's units. Never says that a line may be energized. */
export function explain(assessment: Assessment, { unitSystem, timeZone = 'UTC', shown, nowMs }: ExplainOptions): Explanation {
  const words: Words = { unitSystem, timeZone, edges: assessment.edges }
  const held = shown?.held === true
  const flags: AssessmentFlag[] = held && !assessment.flags.includes('held') ? ['held', ...assessment.flags] : assessment.flags
  const { nextReadingDueMs } = assessment
  const nextActions = assessment.nextActions.map((action) =>
    // The day that the engine reckoned stands for the interval that it comes from: two values would differ.
    action.code === 'measure-again' && nextReadingDueMs !== undefined ? againBy(nextReadingDueMs, timeZone, nowMs) : actionSentence(action))
  const local = (text: string): string => localText(text, unitSystem)
  return {
    headline: local(headline(assessment, shown, timeZone, nowMs)),
    reasons: [...assessment.reasons.map((reason) => sentenceOf(reason, words)), MECHANICAL_CAUTION].map(local),
    nextActions: (held ? [actionSentence({ code: 'second-reading-or-engineer' }), ...nextActions] : nextActions).map(local),
    flags: flags.map((code) => ({ code, text: local(FLAG_WORDS[code]) })),
    caution: local(ADVICE_CAUTION),
  }
}

const againBy = (dueMs: number, timeZone: string, nowMs: number | undefined): string =>
  nowMs !== undefined && dueMs < nowMs ? `Measure again: overdue since ${formatDate(dueMs, timeZone)}.` : `Measure again by ${formatDate(dueMs, timeZone)}.`

/** A reason as a sentence; a code of another version of the engine reads as itself. */
function sentenceOf(reason: Reason, words: Words): string {
  const sentence = CLASS_SENTENCES[reason.code] ?? READING_SENTENCES[reason.code] ?? INFRARED_SENTENCES[reason.code] ?? OUTLOOK_SENTENCES[reason.code]
  return sentence ? sentence(readReason(reason, words)) : `${reason.code}.`
}

const edgeValues = ({ edges }: Pick<Assessment, 'edges'>): number[] => [edges.watch, edges.degraded, edges.urgent, edges.critical]

/** What holds a class leads; what the readings say now comes after it. */
function headline(assessment: Assessment, shown: ShownClass | undefined, timeZone: string, nowMs: number | undefined): string {
  const evidence = evidenceLine(assessment, timeZone)
  if (!shown?.held) return `${pastLead(assessment, timeZone, nowMs) ?? CLASS_WORDS[assessment.class]}: ${evidence}`
  const { foundAtMs, foundRatio, class: held } = shown
  const found = [
    foundRatio === undefined ? 'the finding' : `ratio ${formatRatio(foundRatio, edgeValues(assessment))}`,
    foundAtMs === undefined ? '' : ` of ${formatDate(foundAtMs, timeZone)}`,
  ].join('')
  return `${CLASS_WORDS[held]}, held: ${found} is not cleared. The evidence now says ${CLASS_WORDS[assessment.class].toLowerCase()}, ${evidence}`
}

/** 'Was electrically sound, to be measured again by 14 Jul 2022'; null of what still counts. */
function pastLead({ class: condition, flags, nextReadingDueMs }: Assessment, timeZone: string, nowMs: number | undefined): string | null {
  const renewal = { class: condition, measureByMs: nextReadingDueMs ?? null, stale: flags.includes('stale') }
  if (condition !== 'sound' || nowMs === undefined || !isPastReMeasure(renewal, nowMs)) return null
  const due = nextReadingDueMs === undefined ? 'read on a day nobody noted' : `to be measured again by ${formatDate(nextReadingDueMs, timeZone)}`
  return `Was ${CLASS_WORDS.sound.toLowerCase()}, ${due}`
}

/** The section's own edge beside a ratio that the usual edges would call milder; empty where the usual ones hold. */
function ownEdge(condition: Assessment['class'], { basis, upToC, ...edges }: Assessment['edges']): string {
  const usual = basis === 'policy' && upToC !== undefined
  if (usual || condition === 'unknown' || condition === 'sound' || condition === 'watch') return ''
  return `; on this section ${condition} begins at ${formatEdge(edges[condition])}`
}

/** The belief is what decides; what the picture gave stands beside it where it reads otherwise. */
function infraredLine(measuredK: number, believed: { meanLnK: number } | undefined, edges: readonly number[]): string {
  const measured = formatRatio(measuredK, edges)
  if (!believed) return `infrared gives ${measured} times the resistance of the same length of conductor`
  const k = formatRatio(Math.exp(believed.meanLnK), edges)
  return `by infrared it is believed to have ${k} times the resistance of the same length of conductor${k === measured ? '' : ` (measured ${measured})`}`
}

const RISING = ['sound', 'watch', 'degraded', 'urgent', 'critical'] as const

/** What made the class where the figure by itself reads as another one: the chance of a ratio over an edge. Else where the section's own class begins. */
function decidedBy({ class: condition, edges, reasons, sides, governingSide }: Assessment, k: number): string {
  const rule = reasons.find(({ code, values }) => (code === 'class-rule' || code === 'infrared-class-rule') && values.class === condition)
  const { chance } = rule?.values ?? {}
  if (condition !== 'unknown' && condition !== 'sound' && k < edges[condition] && typeof chance === 'number') {
    return `; a chance of ${chanceText(chance)} that it is over ${formatEdge(edges[condition])} makes it ${condition}`
  }
  const next = RISING[RISING.findIndex((one) => one === condition) + 1]
  const over = next === undefined || next === 'sound' ? undefined : sides.find(({ side }) => side === governingSide)?.pOver[next]
  if (condition !== 'unknown' && next !== undefined && next !== 'sound' && over !== undefined && k >= edges[next]) {
    return `; the chance that it is over ${formatEdge(edges[next])}, where ${next} begins, is ${chanceText(over)}`
  }
  return ownEdge(condition, edges)
}

/** The picture that makes the class, and the ratio that does not explain it. */
function heatLine({ reasons, sides, edges }: Assessment, timeZone: string): string {
  const heat = reasons.find(({ code }) => code === 'major-heat' || code === 'probable-heat')
  const { overConductorK = null, takenAtMs = null } = heat?.values ?? {}
  const when = typeof takenAtMs === 'number' ? ` of ${formatDate(takenAtMs, timeZone)}` : ', undated,'
  const hotter = typeof overConductorK === 'number' ? `{${overConductorK.toFixed(3)} K} hotter` : 'hotter'
  const [worst] = sides.toSorted((a, b) => b.ratio - a.ratio)
  const read = worst?.takenAtMs === undefined ? '' : `, read ${formatDate(worst.takenAtMs, timeZone)},`
  return `infrared${when} shows it ${hotter} than its own conductor${worst ? `, which its ratio of ${formatRatio(worst.ratio, edgeValues({ edges }))}${read} does not explain` : ' and no resistance is measured'}.`
}

function evidenceLine(assessment: Assessment, timeZone: string): string {
  const { class: condition, ratio, governingSide, sides, edges, flags, reasons, asymmetry, fusion } = assessment
  const codes = new Set(reasons.map(({ code }) => code))
  if (assessment.raisedBy === 'heat') return heatLine(assessment, timeZone)
  if (codes.has('broken-strands') && (ratio === undefined || condition === 'urgent')) return 'broken strands were seen.'
  if (flags.includes('infrared-only') || fusion?.taken === 'infrared') {
    const contradicts = fusion?.conflict && !flags.includes('infrared-only') ? ', which contradicts resistance' : ''
    const k = fusion?.sources.find(({ source }) => source === 'infrared')?.k ?? Number.NaN
    // Carried to the worse side it is that side's belief.
    const believed = fusion?.believed ?? sides.find(({ side }) => side === governingSide)
    return `${infraredLine(k, believed, edgeValues({ edges }))}${contradicts}${decidedBy(assessment, believed ? Math.exp(believed.meanLnK) : k)}.`
  }
  if (flags.includes('not-assessed-by-ratio')) return 'this kind of fitting is not judged by its resistance ratio.'
  if (condition === 'unknown' || ratio === undefined) {
    return codes.has('incomplete') ? (flags.includes('interface-not-proved') ? 'an interface is not proved.' : 'an interface is not measured.') : flags.includes('infrared-hot')
      ? 'infrared shows it hotter than its conductor and no resistance is measured.'
      : 'no usable resistance reading.'
  }
  if (flags.includes('asymmetry') && condition === 'watch' && ratio < edges.watch) {
    return `one side reads ${formatRatio(asymmetry ?? Number.NaN)} times the other.`
  }
  const shown = formatRatio(ratio, edgeValues({ edges }))
  const governing = sides.find(({ side }) => side === governingSide)
  const undeclared = governing?.flags.includes('sides-undeclared')
  const atLeast = governing !== undefined && isAtLeast(governing)
  return `${undeclared ? (sides.length > 1 ? 'the worse side' : 'the side read') : `side ${governingSide}`} has ${atLeast ? 'at least ' : ''}${shown} times the resistance of the same length of conductor${decidedBy(assessment, ratio)}.`
}

export interface InfraredExplanation {
  text: string
  /** Why it proves nothing of health, or of a hot one not how bad it is; empty where no rule applied. */
  inconclusive: string
  criteria: { text: string; source: string }[]
  /** The differences carried to the rating by rule of thumb, where the heat balance tells no ratio that counts. */
  atRating: string
  /** What the camera had set, what the surface truly has and where that is from, and what they make of temperatures and ratio; empty where nothing tells. */
  emissivity: string
  /** Said where differences are known and the published table begins above them. */
  underTable: string
  caution: string
}

const CRITERIA_CAUTION = 'These criteria were not made for splices: a good conductor stands {30 to 50 K} over the air at full load'

/** Of a splice that is cooler than its conductor the second half says nothing. */
const criteriaCaution = ({ overConductorK }: InfraredNote): string =>
  overConductorK !== undefined && overConductorK < 0 ? `${CRITERIA_CAUTION}.` : `${CRITERIA_CAUTION}, and a splice as warm as its conductor already has a ratio near 1.3.`

/** One infrared picture in words, with the published criteria as a secondary note. */
export function explainInfrared(note: InfraredNote, { unitSystem, timeZone = 'UTC' }: ExplainOptions): InfraredExplanation {
  const parts: string[] = []
  if (note.spliceTempC !== undefined) parts.push(`splice ${formatTemperature(note.spliceTempC, unitSystem)}`)
  if (note.overConductorK !== undefined) {
    const reference = note.referenceKind === 'same-fitting' ? 'the same fitting elsewhere' : 'its conductor'
    parts.push(comparison(note.overConductorK, reference, unitSystem))
  }
  if (note.overAmbientK !== undefined) parts.push(comparison(note.overAmbientK, 'the air', unitSystem))
  const at = note.takenAtMs === undefined ? 'Undated' : formatDateTime(note.takenAtMs, timeZone)
  const load = loadText(note.lineCurrentA, note.loadShare)
  const compared = note.overConductorK !== undefined || note.overAmbientK !== undefined
  const local = (text: string): string => localText(text, unitSystem)
  return {
    text: `${at}${load}: ${parts.length > 0 ? parts.join(', ') : 'no temperature noted'}.`,
    inconclusive: note.inconclusive.length > 0
      ? local(`${note.hot ? 'Hot, though no measure of how bad' : 'Proves nothing of health'}: ${causeWords(note.inconclusive)}.`) : '',
    criteria: note.criteria.map(({ column, fromK, upToK, action, source }) => {
      const band = upToK === null ? `by more than {${fromK} K}` : `by {${fromK} to ${upToK} K}`
      return { text: local(`${column === 'ambient air' ? 'Over the air' : 'Over a similar component'} ${band}: ${action}`), source }
    }),
    atRating: local(atRatingText(note)),
    emissivity: local(emissivityText(note, unitSystem)),
    underTable: compared && note.criteria.length === 0
      ? local(`The published table begins at a difference of {${CRITERIA_FROM_K} K}: nothing is read from it.`)
      : '',
    caution: note.criteria.length > 0 ? local(criteriaCaution(note)) : '',
  }
}

function atRatingText({ k, inconclusive, loadShare, windMS, ...note }: InfraredNote): string {
  if ((k !== undefined && inconclusive.length === 0) || loadShare === undefined) return ''
  const parts: string[] = []
  for (const [riseK, over] of [[note.trueOverConductorK ?? note.overConductorK, 'its conductor'], [note.trueOverAmbientK ?? note.overAmbientK, 'the air']] as const) {
    const rise = riseK === undefined ? null : riseAtRating(riseK, loadShare)
    if (rise) parts.push(`about {${rise.takenK.toFixed(0)} K} over ${over} ({${rise.lowK.toFixed(0)} to ${rise.highK.toFixed(0)} K} by other powers)`)
  }
  if (parts.length === 0) return ''
  const factor = windMS === undefined ? null : windFactor(windMS)
  const wind = factor === null || factor === 1 ? '' : `; in wind of {1 m/s} some ${factor.toFixed(1)} times that, by a table from memory`
  return `At the rating, by the square of the current: ${parts.join(' and ')}${wind}. A rule of thumb, not the heat balance.`
}

/** '9.9 °F hotter than its conductor', '2.0 °F cooler than the air'. */
function comparison(differenceK: number, reference: string, unitSystem: UnitSystem): string {
  const size = formatTemperatureDifference(Math.abs(differenceK), unitSystem)
  if (/^0\.0 /.test(size)) return `as warm as ${reference}`
  return `${size} ${differenceK > 0 ? 'hotter' : 'cooler'} than ${reference}`
}
