'use client'
import { useEffect, useRef, type ReactNode } from 'react'
import { Button } from '@/components/ui/button'
import { Field } from '@/components/ui/field'
import { Icon } from '@/components/ui/icons'
import { useUnitSystem } from '@/components/ui/preferences'
import { Select } from '@/components/ui/select'
import type { ReviewItem } from '@/lib/contract/contract'
import { CandidateList } from './candidate-list'
import { asDecision, declaredPhase, lacksReason, stepWords, type CircuitThere, type DecisionChange, type DecisionDraft, type Position } from './decision'
import { MarkTo } from './mark-to'
import { PhaseChoice } from './phase-choice'
import { Evidence, Noted } from './reading-facts'
import css from './panel.module.css'

const NEAREST = 'nearest'

/** What the reading says, where it may belong, and the decision, which is out of sight until what it rests on has been passed. */
export function DecisionPanel({
  item,
  draft,
  map,
  notice,
  onChange,
  onAccept,
  onReject,
  onMove,
  onFound,
}: {
  item: ReviewItem
  draft: DecisionDraft
  /** The candidates on the map, where it does not stand beside this; null where it does. */
  map: ReactNode
  /** What happened to the reading before, where the bar is out of sight. */
  notice: ReactNode
  onChange(change: DecisionChange): void
  onAccept(): void
  onReject(): void
  onMove(): void
  /** A place that was searched for, and the circuits that stand there. */
  onFound(mark: Position, circuits: readonly CircuitThere[]): void
}) {
  const sayable = asDecision(draft, item)
  return (
    <div className={css.panel}>
      <div className={css.scroll}>
        {notice}
        <Evidence item={item} noteFirst={map !== null} />
        {map}
        <div className={css.decide}>
          <CandidateList item={item} draft={draft} onChange={onChange} />
          <MarkTo near={[...new Map(item.candidates.map((c) => [c.circuit_id, { id: c.circuit_id, name: c.circuit }])).values()]} onFound={onFound} />
          {draft.mark !== null && <MovedMark item={item} draft={draft} onChange={onChange} />}
          {declaredPhase(item) === null && <PhaseChoice phase={draft.phase} onPhase={(phase) => onChange({ type: 'phase', phase })} />}
          {map === null && <Noted item={item} />}
          {draft.rejecting ? (
            <RejectForm
              reason={draft.reason}
              needed={item.urgent}
              lacking={lacksReason(draft, item)}
              onReason={(reason) => onChange({ type: 'reason', reason })}
              onReject={onReject}
              onCancel={() => onChange({ type: 'cancel' })}
            />
          ) : (
            <div className={css.foot}>
              {!sayable.ready && <p className={css.why}>{sayable.why}</p>}
              <div className={css.buttons}>
                <Button onClick={() => onChange({ type: 'reject' })}>Set aside</Button>
                {draft.mark === null ? (
                  <Button onClick={onMove}>
                    <Icon name="target" />
                    Move mark
                  </Button>
                ) : (
                  <Button onClick={() => onChange({ type: 'cancel' })}>Put mark back</Button>
                )}
                <Button variant="primary" disabled={!sayable.ready} onClick={onAccept}>
                  {draft.mark === null ? 'Place here' : 'Place at the mark'}
                </Button>
              </div>
            </div>
          )}
        </div>
      </div>
    </div>
  )
}

function MovedMark({ item, draft, onChange }: { item: ReviewItem; draft: DecisionDraft; onChange(change: DecisionChange): void }) {
  const [system] = useUnitSystem()
  const circuits = [...new Map([...item.candidates.map((c) => [c.circuit_id, c.circuit] as const), ...draft.standing.map(({ id, name }) => [id, name] as const)])]
  return (
    <section className={css.section} role="status">
      <h3>Mark moved by hand</h3>
      <p className={css.note}>Drag it, or use the arrow keys: {stepWords(system)}. It is placed on the line at the mark.</p>
      <Select
        label="Circuit"
        value={draft.circuitId === null ? NEAREST : String(draft.circuitId)}
        onValueChange={(v) => onChange({ type: 'circuit', circuitId: v === NEAREST ? null : Number(v) })}
        options={[
          { value: NEAREST, label: 'Nearest to the mark' },
          ...circuits.map(([id, name]) => ({ value: String(id), label: name })),
        ]}
      />
    </section>
  )
}

function RejectForm({
  reason,
  needed,
  lacking,
  onReason,
  onReject,
  onCancel,
}: {
  reason: string
  /** It is urgent or critical. */
  needed: boolean
  lacking: boolean
  onReason(reason: string): void
  onReject(): void
  onCancel(): void
}) {
  const field = useRef<HTMLInputElement>(null)
  useEffect(() => {
    field.current?.focus()
  }, [])
  return (
    <form
      className={css.foot}
      onSubmit={(e) => {
        e.preventDefault()
        onReject()
      }}
    >
      <Field
        ref={field}
        label="Why it is set aside"
        optional={!needed}
        required={needed}
        value={reason}
        maxLength={400}
        onChange={(e) => onReason(e.target.value)}
        hint={`${needed ? 'Urgent or critical: needed. ' : ''}It counts for nothing, stays on file under Set aside, and can be taken back.`}
      />
      <div className={css.buttons}>
        <Button onClick={onCancel}>Keep in review</Button>
        <Button variant="primary" type="submit" disabled={lacking}>
          Set reading aside
        </Button>
      </div>
    </form>
  )
}
