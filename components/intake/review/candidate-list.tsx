'use client'
import { cx } from '@/components/ui/class-names'
import { usePhaseLetters, useUnitSystem } from '@/components/ui/preferences'
import { alongText, phaseText } from '@/components/splice/position'
import type { Candidate, ReviewItem } from '@/lib/contract/contract'
import { formatOffset, formatSure } from '@/lib/units/format'
import { isSureTold } from '@/lib/geo/review-cause'
import { noCircuitWords } from '@/lib/intake/report/no-circuit'
import { capital } from '../reading-name'
import { againstText, circuitAdvice, nearestLoadText } from './load-hint'
import { splicesInReach, type DecisionChange, type DecisionDraft } from './decision'
import css from './panel.module.css'

/** The lines it may belong to, numbered as on the map, likeliest first; the chosen one opens to its splices. */
export function CandidateList({
  item,
  draft,
  onChange,
}: {
  item: ReviewItem
  draft: DecisionDraft
  onChange(change: DecisionChange): void
}) {
  if (item.candidates.length === 0) {
    const { circuit: named } = item.reading.fields
    return (
      <p className={css.none}>
        {capital(noCircuitWords({ says_circuit: typeof named === 'string' ? named : null, lon: item.reading.lon }, false))}. Move the mark to where it was read, or set it aside.
      </p>
    )
  }
  const advice = circuitAdvice(item)
  return (
    <fieldset className={css.candidates}>
      <legend>Where it may belong</legend>
      {advice && (
        <p className={css.advice}>
          <b>{advice.ask}</b> {advice.hint}
        </p>
      )}
      {item.candidates.map((c, n) => {
        const chosen = draft.mark === null && draft.candidate === n
        return (
          <div key={`${c.span_id}-${c.line_distance_m}`} className={cx(css.candidate, chosen && css.chosen)}>
            <CandidateRow
              candidate={c} sure={isSureTold(item.cause)} load={advice === null ? '' : nearestLoadText(c, item.reading.taken_at)} against={againstText(c, item.reading)}
              positioned={item.reading.lon !== null} index={n} chosen={chosen} onChoose={() => onChange({ type: 'candidate', index: n })}
            />
            {chosen && <SpliceChoice candidate={c} draft={draft} onChange={onChange} />}
          </div>
        )
      })}
    </fieldset>
  )
}

function CandidateRow({
  candidate: c,
  sure,
  load,
  against,
  positioned,
  index,
  chosen,
  onChoose,
}: {
  candidate: Candidate
  /** Whether its probability is told. */
  sure: boolean
  /** What it carried nearest to the time of the reading, in words. */
  load: string
  /** What the reading's own current says against it, in words. */
  against: string
  /** Whether the reading has a position of its own. */
  positioned: boolean
  index: number
  chosen: boolean
  onChoose(): void
}) {
  const [system] = useUnitSystem()
  const along = alongText(
    { ...c, offset_m: c.offset_from_structure_m, phase: null, position: null, circuit_side: null, subconductor: null },
    system,
  )
  const side = c.offset_m < 0 ? 'left' : 'right'
  return (
    <label className={css.row}>
      <input type="radio" name="candidate" checked={chosen} onChange={onChoose} />
      <span className={css.number} aria-hidden="true">
        {index + 1}
      </span>
      <span className={css.where}>
        <b>{c.circuit}</b>
        {c.section === 'main' ? '' : ` ${c.section}`}
        <small>{along}</small>
        {positioned && (
          <small>
            read {formatOffset(Math.abs(c.offset_m), system)} {Math.abs(c.offset_m) < 0.05 ? 'from' : `${side} of`} the line
          </small>
        )}
        {load !== '' && <small>{load}</small>}
        {against !== '' && (
          <small className={css.against}>
            <b>Speaks against it:</b> {against}
          </small>
        )}
      </span>
      {sure && (
        <span className={css.sure}>
          <b>{formatSure(c.probability)}</b>
          <small>sure of the circuit</small>
          <i style={{ width: `${Math.round(c.probability * 100)}%` }} />
        </span>
      )}
    </label>
  )
}

function SpliceChoice({
  candidate,
  draft,
  onChange,
}: {
  candidate: Candidate
  draft: DecisionDraft
  onChange(change: DecisionChange): void
}) {
  const [system] = useUnitSystem()
  const letters = usePhaseLetters()
  const reach = splicesInReach(candidate, draft.phase)
  return (
    <div className={css.splices} role="radiogroup" aria-label={`Splice on ${candidate.circuit}`}>
      {reach.map((s) => (
        <label key={s.splice_id}>
          <input
            type="radio"
            name="splice"
            checked={draft.splice === s.splice_id}
            onChange={() => onChange({ type: 'splice', splice: s.splice_id })}
          />
          <span>
            {s.splice}{' '}
            <small>
              {phaseText({ phase: s.phase, position: null }, letters)}, {formatOffset(Math.abs(s.along_m), system)}{' '}
              {s.along_m < 0 ? 'back' : 'ahead'}
            </small>
          </span>
        </label>
      ))}
      <label>
        <input
          type="radio"
          name="splice"
          checked={draft.splice === 'new'}
          onChange={() => onChange({ type: 'splice', splice: 'new' })}
        />
        <span>
          New splice here <small>marked as found by survey</small>
        </span>
      </label>
    </div>
  )
}
