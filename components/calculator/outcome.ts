import { assess, explain, workingOf, type Assessment, type Policy, type WorkingStep } from '@/lib/condition'
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
  working: WorkingStep[]
}

export interface Outcome {
  case: Case
  /** Null until there is a side or a splice temperature to reckon from. */
  reckoned: Reckoned | null
}

/** These say in words what the current's own part says. */
const OF_LIMIT: ReadonlySet<string> = new Set(['limit', 'limit-of-section'])

/** Everything the calculator answers, from what was put in alone: the same engine and policy as everywhere else. */
export function outcomeOf(inputs: Inputs, policy: Policy, system: UnitSystem, timeZone: string, atMs: number): Outcome {
  const found = caseOf(inputs, policy, system, atMs)
  const { facts, evidence, usable, temperatures } = found
  const [reading] = evidence
  if (!reading) return { case: found, reckoned: null }
  const assessment = assess({ facts, evidence, policy, asOfMs: atMs })
  const words = explain(assessment, { unitSystem: system, timeZone })
  const spoils = (reading.source === 'resistance'
    ? resistanceSpoils(usable, reading, assessment, words.reasons, policy, system)
    : infraredSpoils(usable, assessment, policy, system)
  ).map((spoil) => ({ ...spoil, title: localText(spoil.title, system), text: localText(spoil.text, system) }))
  const told = new Set(spoils.map(({ text }) => text))
  return {
    case: found,
    reckoned: {
      assessment, spoils, headline: words.headline, nextActions: words.nextActions, caution: words.caution,
      reasons: words.reasons.filter((text, i) => !told.has(text) && !OF_LIMIT.has(assessment.reasons[i]?.code ?? '')),
      working: [...temperatures.steps, ...workingOf({ assessment, facts, evidence, policy, asOfMs: atMs })],
    },
  }
}

/** The ratio on show: that of the governing side, else the whole splice's by infrared where a picture counts. */
export const shownRatio = ({ ratio, fusion }: Assessment): number | undefined =>
  ratio ?? fusion?.sources.find(({ source }) => source === 'infrared')?.k
