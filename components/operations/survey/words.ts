import { spanText, type PhaseLetters } from '@/components/splice/position'
import { SURVEY_PHASES, type InVain, type SpanSurveys, type SurveyFilter } from '@/lib/contract/survey-layer'

type Look = SpanSurveys['phases'][number]['looks'][number]

/** What the absence of a reading means there: said wherever such a flight is. */
export const EXCEPTIONS_ONLY = 'Only finds were written down: no reading means that nothing was found, never that a splice is sound.'

const WHY: Record<InVain, string> = {
  'low-load': 'at too low a load', 'load-unknown': 'with no load on record', 'wind': 'in too much wind', 'wind-unknown': 'with no wind on record',
  'not-infrared': 'which shows no failing splice', 'far-or-newer': 'from too far away, or before a splice there was put in', 'not-every-splice': 'without proving every splice',
}

/** 'infrared 2026, exceptions only, at too low a load'. */
export function lookText({ method, surveyed_on: on, exceptions_only: exceptions, in_vain: why }: Pick<Look, 'method' | 'surveyed_on' | 'exceptions_only' | 'in_vain'>): string {
  const what = `${method} ${on.slice(0, 4)}${exceptions ? ', exceptions only,' : ''}`
  return [what, why.map((one) => WHY[one]).join(' and ')].filter(Boolean).join(' ').replace(/,$/, '')
}

/** A page holds more than a person reads: the last of each kind are told. */
const MOST_LOOKS = 4

/** The last look of each kind, the oldest first: 'resistance 2024; infrared 2026 at too low a load'. */
function looksText(looks: readonly Look[]): string {
  const told = new Map<string, Look>()
  for (const look of looks) {
    const kind = `${look.method} ${look.exceptions_only}`
    if (!told.has(kind)) told.set(kind, look)
  }
  return [...told.values()].slice(0, MOST_LOOKS).reverse().map(lookText).join('; ')
}

/** 'STR 45-46'. */
export const spanName = ({ structure_back: back, structure_ahead: ahead }: Pick<SpanSurveys, 'structure_back' | 'structure_ahead'>): string =>
  spanText(back, ahead) ?? 'Unnamed span'

/** Phase by phase, phases of which the same holds together: ['Phases B, C', 'never surveyed']. */
export function phaseLines({ phases }: Pick<SpanSurveys, 'phases'>, letters: PhaseLetters): [phases: string, text: string][] {
  const groups = new Map<string, string[]>()
  for (const phase of [...SURVEY_PHASES, '']) {
    const looks = phases.find((one) => one.phase === phase)?.looks ?? []
    if (phase === '' && looks.length === 0) continue
    const text = looks.length > 0 ? looksText(looks) : 'never surveyed'
    groups.set(text, [...groups.get(text) ?? [], phase === '' ? 'not confirmed' : (letters[phase] ?? phase)])
  }
  return [...groups].map(([text, names]) => [`${names.length > 1 ? 'Phases' : 'Phase'} ${names.join(', ')}`, text])
}

/** 'Span STR 45-46 of 2310. Phase A: resistance 2024; infrared 2026 at too low a load. Phases B, C: never surveyed.' */
export const spanSentence = (span: SpanSurveys, letters: PhaseLetters): string =>
  [`Span ${spanName(span)} of ${span.circuit}.`, ...phaseLines(span, letters).map(([name, text]) => `${name}: ${text}.`)].join(' ')

export const hasExceptionsOnly = ({ phases }: Pick<SpanSurveys, 'phases'>): boolean => phases.some(({ looks }) => looks.some((look) => look.exceptions_only))

/** 'STR 45-52' of a stretch; a section's end without a name says so. */
export const stretchName = (from: string | null, to: string | null): string => spanText(from, to) ?? 'no named structure'

/** Under a picture of the map, where no legend says it. */
export function pictureText({ phases, years }: SurveyFilter, letters: PhaseLetters): string {
  const of = `${phases ? `phase ${phases.map((phase) => letters[phase] ?? phase).join(', ')}` : 'all phases'}, ${years ? `in ${years.join(', ')}` : 'in any year'}`
  return `Lines: when last surveyed, ${of}. Filled: surveyed; dashed: exceptions only, which is not sound; a thread in a hollow line: some phases; hollow: never.`
}
