'use client'
import { usePhaseLetters } from '@/components/ui/preferences'
import { useSpanSurveys } from './queries'
import { EXCEPTIONS_ONLY, hasExceptionsOnly, phaseLines, spanName } from './words'
import css from './survey.module.css'

/** Who looked at a span, phase by phase. */
export function SpanWords({ id, version }: { id: number; version: number | undefined }) {
  const letters = usePhaseLetters()
  const { data: span, isError } = useSpanSurveys(id, version)
  if (isError) return <span>What is known of this span could not be asked for.</span>
  if (!span) return <span>Asking who looked at this span …</span>
  return (
    <>
      <b>{spanName(span)}</b> {span.circuit}{span.section === 'main' ? '' : `, section ${span.section}`}
      <dl className={css.phases}>
        {phaseLines(span, letters).map(([name, text]) => <div key={name}><dt>{name}</dt><dd>{text}</dd></div>)}
      </dl>
      {hasExceptionsOnly(span) && <small className={css.meaning}>{EXCEPTIONS_ONLY}</small>}
    </>
  )
}
