import { spanText } from '@/components/splice/position'
import type { SpanCoverage } from '@/lib/contract/coverage'

type Look = SpanCoverage['seen'][number]

/** Conclusive within two years, within six, longer ago; looked at in vain; or never. */
export type Finding = 'recent' | 'older' | 'old' | 'inconclusive' | 'never'
const DAY_MS = 86_400_000
const YEAR_MS = 365.25 * DAY_MS

/** What is known of a phase of a span: how long ago a failing splice would have shown, else whether anybody was there at all. */
export function findingOf(look: Pick<Look, 'conclusive_on'> | undefined, nowMs: number): Finding {
  if (!look) return 'never'
  if (look.conclusive_on === null) return 'inconclusive'
  const years = (nowMs - Date.parse(look.conclusive_on)) / YEAR_MS
  return years < 2 ? 'recent' : years < 6 ? 'older' : 'old'
}

/** Whether the conclusive look is older than the re-survey interval of the worst class there. */
export const isPastResurvey = ({ conclusive_until: until }: Pick<Look, 'conclusive_until'>, nowMs: number): boolean =>
  until !== null && Date.parse(until) + DAY_MS <= nowMs

/** The last look at a phase of a span. */
export const lookAt = (span: SpanCoverage, phase: string): Look | undefined => span.seen.find((look) => look.phase === phase)

/** Phases to draw: A, B, C, and '' where a reading's phase was not confirmed. */
export const phasesOf = (spans: readonly SpanCoverage[]): string[] =>
  spans.some((s) => lookAt(s, '')) ? ['A', 'B', 'C', ''] : ['A', 'B', 'C']

/** Spans with phases of which this holds: 'STR 45-46, phases B, C'; a span of which it holds for all three is named alone. */
export function spansWhere(spans: readonly SpanCoverage[], letters: Record<string, string>, holds: (look: Look | undefined) => boolean): string[] {
  return spans.flatMap((span) => {
    const phases = ['A', 'B', 'C'].filter((phase) => holds(lookAt(span, phase)))
    if (phases.length === 0) return []
    const name = spanText(span.structure_back, span.structure_ahead) ?? `section ${span.section}, unnamed span`
    if (phases.length === 3) return [name]
    return [`${name}, ${phases.length === 1 ? 'phase' : 'phases'} ${phases.map((p) => letters[p] ?? p).join(', ')}`]
  })
}

/** Spans of a section in line order. */
export function bySection(spans: readonly SpanCoverage[]): [section: string, spans: SpanCoverage[]][] {
  const groups = new Map<string, SpanCoverage[]>()
  for (const span of spans) groups.set(span.section, [...(groups.get(span.section) ?? []), span])
  return [...groups]
}
