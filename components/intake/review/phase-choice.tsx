'use client'
import { usePhaseLetters } from '@/components/ui/preferences'
import { Segmented } from '@/components/ui/tabs'
import css from './panel.module.css'

const PHASES = ['A', 'B', 'C'] as const
type Choice = (typeof PHASES)[number] | 'unknown'

/** Asked where the reading names none; not confirmed is an answer. */
export function PhaseChoice({ phase, onPhase }: { phase: string | null; onPhase(phase: string | null): void }) {
  const letters = usePhaseLetters()
  const value: Choice = PHASES.find((p) => p === phase) ?? 'unknown'
  return (
    <div className={css.phase}>
      <span>Phase</span>
      <Segmented<Choice>
        label="Phase"
        size="small"
        value={value}
        onValueChange={(v) => onPhase(v === 'unknown' ? null : v)}
        options={[
          ...PHASES.map((p) => ({ value: p, label: letters[p] ?? p, name: `Phase ${letters[p] ?? p}` })),
          { value: 'unknown', label: 'not confirmed' },
        ]}
      />
    </div>
  )
}
