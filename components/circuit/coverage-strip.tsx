import { useId, type ReactNode } from 'react'
import { dayText } from '@/components/splice/age'
import { spanText, type PhaseLetters } from '@/components/splice/position'
import type { SpanCoverage } from '@/lib/contract/coverage'
import { bySection, findingOf, isPastResurvey, lookAt, phasesOf, spansWhere, type Finding } from './coverage'
import css from './coverage-strip.module.css'

const FILL: Record<Exclude<Finding, 'old' | 'inconclusive' | 'never'>, string | undefined> = { recent: css.recent, older: css.older }
const KEY: [Finding, string][] = [
  ['recent', 'conclusive within 2 years'],
  ['older', 'within 6 years'],
  ['old', 'longer ago'],
  ['inconclusive', 'looked at, but proves nothing'],
  ['never', 'never looked at'],
]

/** Which spans were looked at and what it proves, phase by phase, along the line; the same in words below, so colour is not needed. */
export function CoverageStrip({ spans, letters, nowMs }: { spans: SpanCoverage[]; letters: PhaseLetters; nowMs: number }) {
  const id = useId()
  const patterns: Patterns = { old: `${id}-dots`, inconclusive: `${id}-hatch` }
  const phases = phasesOf(spans)
  return (
    <div className={css.strip}>
      <svg width="0" height="0" aria-hidden="true" className={css.defs}>
        <pattern id={patterns.old} width="4" height="4" patternUnits="userSpaceOnUse">
          <circle cx="2" cy="2" r="0.9" className={css.dot} />
        </pattern>
        <pattern id={patterns.inconclusive} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="1.2" height="5" className={css.hatch} />
        </pattern>
      </svg>
      {bySection(spans).map(([section, own]) => (
        <Section key={section} name={section} spans={own} phases={phases} letters={letters} nowMs={nowMs} patterns={patterns} />
      ))}
      <p className={css.key}>
        {KEY.map(([finding, words]) => (
          <span key={finding}>
            <svg width="16" height="12" aria-hidden="true">
              <rect width="16" height="12" {...paint(finding, patterns)} />
            </svg>
            {words}
          </span>
        ))}
      </p>
      <Listed names={spansWhere(spans, letters, (look) => !look)} of={spans.length} what="a phase that was never looked at">
        Every span and phase was looked at at least once.
      </Listed>
      <Listed
        names={spansWhere(spans, letters, (look) => look?.conclusive_on === null)}
        of={spans.length}
        what="a phase that was looked at without proving anything"
      />
      <Listed
        names={spansWhere(spans, letters, (look) => look?.exceptions_only === true)}
        of={spans.length}
        what="a phase last seen by a flight or patrol that wrote down its finds alone: nothing was found, which is not sound"
      />
      <Listed
        names={spansWhere(spans, letters, (look) => look !== undefined && isPastResurvey(look, nowMs))}
        of={spans.length}
        what="a phase whose conclusive look is past the re-survey interval of its class"
      />
    </div>
  )
}

/** Ids of the patterns: what is old, in vain or missing differs in form, because paper and some eyes lose the tint. */
type Patterns = Record<'old' | 'inconclusive', string>

const paint = (finding: Finding, patterns: Patterns) =>
  finding === 'never' ? { fill: 'none' } : finding === 'old' || finding === 'inconclusive' ? { fill: `url(#${patterns[finding]})` } : { className: FILL[finding] }

function Listed({ names, of, what, children }: { names: string[]; of: number; what: string; children?: ReactNode }) {
  if (names.length === 0) return children ? <p className={css.missing}>{children}</p> : null
  return (
    <details className={css.missing}>
      <summary>
        {names.length} of {of} spans have {what}
      </summary>
      <ul>
        {names.map((name) => (
          <li key={name}>{name}</li>
        ))}
      </ul>
    </details>
  )
}

function lookText(span: SpanCoverage, phase: string): string {
  const name = spanText(span.structure_back, span.structure_ahead) ?? 'unnamed span'
  const look = lookAt(span, phase)
  if (!look) return `${name}: never looked at`
  const last = `${look.method}, ${dayText(look.surveyed_on)}, ${look.survey}${look.exceptions_only ? ', exceptions only' : ''}`
  if (look.conclusive_on === null) return `${name}: ${last}; proves nothing`
  return `${name}: ${last}; conclusive ${look.conclusive_on === look.surveyed_on ? 'then' : dayText(look.conclusive_on)}`
}

interface SectionProps {
  name: string
  spans: SpanCoverage[]
  phases: string[]
  letters: PhaseLetters
  nowMs: number
  patterns: Patterns
}

function Section({ name, spans, phases, letters, nowMs, patterns }: SectionProps) {
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
            const finding = findingOf(lookAt(span, phase), nowMs)
            if (finding === 'never') return null
            return (
              <rect
                key={span.span_id}
                x={`${percent(span.start_m)}%`}
                width={`${percent(span.end_m) - percent(span.start_m)}%`}
                height="100%"
                {...paint(finding, patterns)}>
                <title>{lookText(span, phase)}</title>
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
