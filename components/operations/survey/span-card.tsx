'use client'
import { Button, IconButton } from '@/components/ui/button'
import { useSpanSurveys } from './queries'
import { SpanWords } from './span-words'
import css from './survey.module.css'

/** The span that was pressed, for those who do not hover, until another is or it is closed. */
export function SpanCard({ id, version, onCircuit, onClose }: { id: number; version: number | undefined; onCircuit(id: number): void; onClose(): void }) {
  const span = useSpanSurveys(id, version).data
  return (
    <section className={css.card} aria-label="Surveys of the span" onKeyDown={(e) => { if (e.key === 'Escape') onClose() }}>
      <div role="status"><SpanWords id={id} version={version} /></div>
      <IconButton icon="close" size="small" label="Close the span" onClick={onClose} />
      {span && <Button size="small" variant="quiet" onClick={() => onCircuit(span.circuit_id)}>Circuit {span.circuit}</Button>}
    </section>
  )
}
