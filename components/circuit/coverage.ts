import { spanText } from '@/components/splice/position'

/** One span and when each phase of it was last looked at, as the store gives it. */
export interface SpanSeen {
  span_id: number
  section: string
  structure_back: string | null
  structure_ahead: string | null
  start_m: number
  end_m: number
  seen: { phase: string; method: string; surveyed_on: string; survey: string }[]
}

export type Recency = 'recent' | 'older' | 'old' | 'never'
const YEAR_MS = 365.25 * 86_400_000

/** Within two years, within six, longer ago, or never. */
export function recency(surveyedOn: string | undefined, nowMs: number): Recency {
  if (!surveyedOn) return 'never'
  const years = (nowMs - Date.parse(surveyedOn)) / YEAR_MS
  return years < 2 ? 'recent' : years < 6 ? 'older' : 'old'
}

/** The latest look at a phase of a span, by whatever method. */
export const lastSeen = (span: SpanSeen, phase: string) =>
  span.seen
    .filter((s) => s.phase === phase)
    .reduce<SpanSeen['seen'][number] | undefined>((best, s) => (!best || s.surveyed_on > best.surveyed_on ? s : best), undefined)

/** Phases to draw: A, B, C, and '' where a reading's phase was not confirmed. */
export const phasesOf = (spans: readonly SpanSeen[]): string[] =>
  spans.some((s) => s.seen.some((x) => x.phase === '')) ? ['A', 'B', 'C', ''] : ['A', 'B', 'C']

/** Spans of which a phase was never looked at: 'STR 45-46, phases B, C'. */
export function neverSeen(spans: readonly SpanSeen[], letters: Record<string, string>): string[] {
  return spans.flatMap((span) => {
    const missing = ['A', 'B', 'C'].filter((p) => !lastSeen(span, p))
    if (missing.length === 0) return []
    const name = spanText(span.structure_back, span.structure_ahead) ?? `section ${span.section}, unnamed span`
    return [
      missing.length === 3
        ? name
        : `${name}, ${missing.length === 1 ? 'phase' : 'phases'} ${missing.map((p) => letters[p] ?? p).join(', ')}`,
    ]
  })
}

/** Spans of a section in line order. */
export function bySection(spans: readonly SpanSeen[]): [section: string, spans: SpanSeen[]][] {
  const groups = new Map<string, SpanSeen[]>()
  for (const span of spans) groups.set(span.section, [...(groups.get(span.section) ?? []), span])
  return [...groups]
}
