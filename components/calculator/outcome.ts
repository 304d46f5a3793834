import { assess, conductorByCode, explain, workingOf, type Assessment, type Policy, type SpliceFacts, type WorkingStep } from '@/lib/condition'
import { restsOnPictures } from '@/lib/condition/rests-on-pictures'
import { YEAR_MS } from '@/lib/condition/limits'
import { isPastReMeasure } from '@/lib/condition/past-re-measure'
import { localText } from '@/lib/units/local-text'
import type { UnitSystem } from '@/lib/units/format'
import type { Inputs } from './address'
import { caseOf, type Case } from './case-of'
import type { Spoil } from './spoil'
import { infraredSpoils } from './spoils-infrared'
import { resistanceSpoils } from './spoils-resistance'

export interface Reckoned {
  assessment: Assessment
  headline: string
  /** Why, but for what stands among the spoils and beside the current. */
  reasons: string[]
  nextActions: string[]
  caution: string
  spoils: Spoil[]
  /** Nothing checks the conductor's own reading: its code word or its span is missing. Every ratio rests on it. */
  conductorUnchecked: boolean
  /** The age that the current is reckoned for where no day was given, years; 0 where one was. */
  limitYears: number
  /** Sound once, and to be measured again before now. */
  wasSound: boolean
  working: WorkingStep[]
}

export interface Outcome {
  case: Case
  /** Null until there is a side or a splice temperature to reckon from. */
  reckoned: Reckoned | null
}

/** These say in words what the current's own part says. */
const OF_LIMIT: ReadonlySet<string> = new Set(['limit', 'limit-of-section'])

const UNCHECKED: ReadonlySet<string> = new Set(['conductor-unnamed', 'span-unknown'])

/** Everything the calculator answers, from what was put in alone: the same engine and policy as everywhere else. */
export function outcomeOf(inputs: Inputs, policy: Policy, system: UnitSystem, timeZone: string, atMs: number): Outcome {
  const found = caseOf(inputs, policy, system, atMs)
  const { facts, evidence, usable } = found
  const [reading] = evidence
  if (!reading) return { case: found, reckoned: null }
  // A picture's ratio is itself reckoned with the barrel, and a small one would make it milder.
  const limitFacts = reading.source === 'resistance' ? cautiousFacts(facts, policy) : facts
  const whole = assess({ facts, evidence, policy, asOfMs: atMs })
  // Of infrared alone no current is given: its worse side may carry less.
  const judged = restsOnPictures(whole) ? { ...whole, limit: undefined } : whole
  const limitYears = usable.on === null && judged.limit ? unknownAgeYears(judged, policy) : 0
  const limitAtMs = atMs + limitYears * YEAR_MS
  // Whether a side had both electrodes on the barrel is judged by the usual barrel: by a small one, more sides would have, and no current would be left.
  const anyBarrel = { ...policy, side: { ...policy.side, barrelOnlyFactor: 0 } }
  const cautious = limitFacts === facts && limitYears === 0 ? judged : assess({ facts: limitFacts, evidence, policy: limitFacts === facts ? policy : anyBarrel, asOfMs: limitAtMs })
  const assessment = { ...judged, limit: judged.limit && cautious.limit }
  const said = explain(assessment, { unitSystem: system, timeZone, nowMs: atMs })
  const words = found.faults.has('span') ? { ...said, reasons: said.reasons.map((text) => text.replace('electrode span was not noted', 'electrode span was refused')) } : said
  const spoils = (reading.source === 'resistance'
    ? resistanceSpoils(usable, reading, assessment, words.reasons, policy, system)
    : infraredSpoils(usable, assessment, policy, system)
  ).map((spoil) => ({ ...spoil, title: localText(titleOf(spoil, found.faults.has('span')), system), text: localText(spoil.text, system) }))
  const told = new Set(spoils.map(({ text }) => text))
  return {
    case: found,
    reckoned: {
      assessment, spoils, headline: words.headline, nextActions: words.nextActions, caution: words.caution,
      reasons: words.reasons.filter((text, i) => !told.has(text) && !OF_LIMIT.has(assessment.reasons[i]?.code ?? '')),
      conductorUnchecked: spoils.some(({ code }) => UNCHECKED.has(code)), limitYears, wasSound: isWasSound(assessment, atMs),
      working: workingOf({ assessment, facts: limitFacts, evidence, policy, asOfMs: atMs }),
    },
  }
}

const isWasSound = ({ class: condition, nextReadingDueMs, flags }: Assessment, atMs: number): boolean =>
  condition === 'sound' && isPastReMeasure({ class: condition, measureByMs: nextReadingDueMs ?? null, stale: flags.includes('stale') }, atMs)

/** A span that was put in and refused was noted. */
const titleOf = ({ code, title }: Spoil, spanRefused: boolean): string => (code === 'span-unknown' && spanRefused ? 'Refused: the conductor cannot be checked' : title)

/** Typical barrels differ by so much: the policy's own remark on its factor, from memory. */
const SMALL_BARREL = 0.85

/**
 * Without the barrel's diameter a current is reckoned for a small barrel, which sheds the least heat: who knows less is never allowed more.
 */
function cautiousFacts(facts: SpliceFacts, policy: Policy): SpliceFacts {
  const conductor = facts.conductorCode === undefined ? null : conductorByCode(facts.conductorCode)
  if (conductor === null || facts.barrelOdMm !== undefined) return facts
  return { ...facts, barrelOdMm: Math.max(1, policy.side.typicalBarrelFactor * SMALL_BARREL) * conductor.diameterMm }
}

/**
 * Without the day of the reading a current is reckoned as of a reading about to be stale, twice the interval of its class: a splice ages, and a sheet
 * that knows the day allows no less.
 */
function unknownAgeYears({ class: condition, flags }: Assessment, { resurveyYears }: Policy): number {
  if (condition === 'unknown') return 0
  return 2 * (condition === 'sound' && flags.includes('infrared-only') ? resurveyYears.soundByInfrared : resurveyYears[condition])
}

/** The ratio on show: that of the governing side, else the whole splice's by infrared where a picture counts. */
export const shownRatio = ({ ratio, raisedBy, fusion }: Assessment): number | undefined =>
  raisedBy ? undefined : ratio ?? fusion?.sources.find(({ source }) => source === 'infrared')?.k
