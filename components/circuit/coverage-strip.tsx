import type { ReactNode } from 'react'
import { dayText } from '@/components/splice/age'
import { spanText, type PhaseLetters } from '@/components/splice/position'
import { bySection, lastSeen, neverSeen, phasesOf, recency, type Recency, type SpanSeen } from './coverage'
import css from './coverage-strip.module.css'

const FILL: Record<Recency, string | undefined> = { recent: css.recent, older: css.older, old: css.old, never: undefined }
const KEY: [Recency, string][] = [
  ['recent', 'within 2 years'],
  ['older', 'within 6 years'],
  ['old', 'longer ago'],
  ['never', 'never looked at'],
]

/** Which spans were looked at, phase by phase, along the line; what was never seen is listed below, so colour is not needed. */
export function CoverageStrip({ spans, letters, nowMs }: { spans: SpanSeen[]; letters: PhaseLetters; nowMs: number }) {
  const phases = phasesOf(spans)
  const missing = neverSeen(spans, letters)
  return (
    <div className={css.strip}>
      {bySection(spans).map(([section, own]) => (
        <Section key={section} name={section} spans={own} phases={phases} letters={letters} nowMs={nowMs} />
      ))}
      <p className={css.key}>
        {KEY.map(([name, words]) => (
          <span key={name}>
            <svg width="16" height="12" aria-hidden="true">
              <rect width="16" height="12" className={FILL[name]} fill="none" />
            </svg>
            {words}
          </span>
        ))}
      </p>
      {missing.length > 0 ? (
        <details className={css.missing}>
          <summary>
            {missing.length} of {spans.length} spans have a phase that was never looked at
          </summary>
          <ul>
            {missing.map((m) => (
              <li key={m}>{m}</li>
            ))}
          </ul>
        </details>
      ) : (
        <p className={css.missing}>Every span and phase was looked at at least once.</p>
      )}
    </div>
  )
}

function seenText(span: SpanSeen, seen: SpanSeen['seen'][number] | undefined): string {
  const name = spanText(span.structure_back, span.structure_ahead) ?? 'unnamed span'
  return `${name}: ${seen ? `${seen.method}, ${dayText(seen.surveyed_on)}, ${seen.survey}` : 'never looked at'}`
}

function Section({
  name,
  spans,
  phases,
  letters,
  nowMs,
}: {
  name: string
  spans: SpanSeen[]
  phases: string[]
  letters: PhaseLetters
  nowMs: number
}) {
  const first = spans[0]
  const last = spans.at(-1)
  if (!first || !last) return null
  const lengthM = Math.max(last.end_m - first.start_m, 1)
  const percent = (m: number) => ((m - first.start_m) / lengthM) * 100
  return (
    <div className={css.section}>
      {name !== 'main' && <h3>Section {name}</h3>}
      {phases.map((phase) => (
        <Lane key={phase} label={phase === '' ? 'not confirmed' : `Phase ${letters[phase] ?? phase}`}>
          {spans.map((span) => {
            const seen = lastSeen(span, phase)
            const state = recency(seen?.surveyed_on, nowMs)
            if (state === 'never') return null
            return (
              <rect
                key={span.span_id}
                x={`${percent(span.start_m)}%`}
                width={`${percent(span.end_m) - percent(span.start_m)}%`}
                height="100%"
                className={FILL[state]}>
                <title>{seenText(span, seen)}</title>
              </rect>
            )
          })}
        </Lane>
      ))}
      <p className={css.ends}>
        <span>{first.structure_back ? `STR ${first.structure_back}` : 'start'}</span>
        <span>{last.structure_ahead ? `STR ${last.structure_ahead}` : 'end'}</span>
      </p>
    </div>
  )
}

function Lane({ label, children }: { label: string; children: ReactNode }) {
  return (
    <>
      <span>{label}</span>
      <svg className={css.lane} aria-hidden="true">
        {children}
      </svg>
    </>
  )
}
