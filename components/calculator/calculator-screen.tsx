'use client'
import { useMemo, useRef, useState } from 'react'
import { Button } from '@/components/ui/button'
import { CopyLink } from '@/components/ui/copy-link'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { PrintButton, PrintFoot, PrintHead, type PrintFootProps } from '@/components/ui/print'
import { EmptyState } from '@/components/ui/states'
import { Segmented } from '@/components/ui/tabs'
import { useLocalText } from '@/components/ui/use-local-text'
import { conductorsThatFit, type Policy } from '@/lib/condition'
import { conductorTemperatureC } from '@/lib/condition/conductor-check'
import { useCalculator, type Inputs } from './address'
import { refusedOf } from './refused'
import type { NumberKey } from './numbers'
import type { FormProps } from './form'
import { outcomeOf, type Outcome } from './outcome'
import { Peek } from './peek'
import { InfraredFields, MainFields, ResistanceFields } from './reading-fields'
import { Result } from './result'
import { besideFields } from './spoil'
import { SectionFields, SpliceFields } from './splice-fields'
import css from './calculator.module.css'

/** Readings in, answer out, in this browser alone: the policy came with the page, and after that no network is needed. */
export function CalculatorScreen({ policy, mark, print }: { policy: Policy; mark: string; print: PrintFootProps }) {
  const [system] = useUnitSystem()
  const timeZone = useTimeZone()
  const { inputs, put, clear, example } = useCalculator()
  const outcome = useMemo(() => outcomeOf(inputs, policy, system, timeZone, print.askedAtMs), [inputs, policy, system, timeZone, print.askedAtMs])
  const { reckoned } = outcome
  const answer = useRef<HTMLDivElement>(null)
  const beside = new Map([...besideFields(reckoned?.spoils ?? []), ...outcome.case.faults])
  const [typed, setTyped] = useState<ReadonlyMap<NumberKey, string>>(new Map())
  const noteTyped = (name: NumberKey, fault: string | null) => {
    if ((typed.get(name) ?? null) !== fault) setTyped((before) => new Map([...[...before].filter(([key]) => key !== name), ...(fault === null ? [] : [[name, fault] as const])]))
  }
  const form: FormProps = { inputs, put, beside, noteTyped }
  return (
    <div className={css.screen}>
      <PrintHead mark={mark} />
      <div className={css.head}>
        <div>
          <h1>Calculator</h1>
          <p>What three micro-ohm readings or one infrared picture say of a splice. Nothing is stored; it works without a network once it is open.</p>
        </div>
        <div className={`${css.tools} no-print`}>
          <CopyLink detail="Whoever opens it sees these figures." />
          <Button size="small" onClick={clear}>
            Clear
          </Button>
          <PrintButton />
        </div>
      </div>
      <div className={css.beside}>
        <form className={css.form} aria-label="Readings" onSubmit={(e) => e.preventDefault()}>
          <Segmented<Inputs['by']>
            label="Reckon from"
            value={inputs.by}
            onValueChange={(by) => put({ by })}
            options={[{ value: 'resistance', label: 'Resistance' }, { value: 'infrared', label: 'Infrared' }]}
          />
          <MainFields form={form} />
          <SpliceFields form={form} fitting={fittingText(outcome, policy)} />
          {inputs.by === 'resistance' ? <ResistanceFields form={form} /> : <InfraredFields form={form} />}
          <SectionFields form={form} />
        </form>
        <div className={css.result} ref={answer}>
          {reckoned ? (
            <Result outcome={outcome} reckoned={reckoned} inputs={inputs} policy={policy} system={system} timeZone={timeZone} />
          ) : (
            <Empty by={inputs.by} refused={refusedOf(outcome.case.faults, typed, inputs)} example={example} />
          )}
        </div>
      </div>
      {reckoned && <Peek reckoned={reckoned} answer={answer} />}
      <PrintFoot {...print} />
    </div>
  )
}

function Empty({ by, refused, example }: { by: Inputs['by']; refused: readonly string[]; example(): void }) {
  const local = useLocalText()
  if (refused.length > 0) {
    return (
      <EmptyState title="No answer: what was written cannot be used">
        <span role="status">
          {refused.map((text) => (
            <span key={text} className={css.refused}>
              {local(text)}
            </span>
          ))}
        </span>
      </EmptyState>
    )
  }
  return by === 'resistance' ? (
    <EmptyState title="Write the three readings" action={<Button onClick={example}>Show an example</Button>}>
      Side A, side B and the conductor beside them, over the same electrode span. One side is enough to begin; the answer follows as you type.
    </EmptyState>
  ) : (
    <EmptyState title="Write what the picture shows" action={<Button onClick={example}>Show an example</Button>}>
      The splice’s temperature, its conductor’s, the air and the line current. The answer follows as you type, and says when a picture proves nothing.
    </EmptyState>
  )
}

/** Without a code word the conductor reading may tell which ones it fits. */
function fittingText({ case: { usable, evidence: [reading] } }: Outcome, policy: Policy): string | undefined {
  if (usable.conductor !== null || usable.c === null || usable.span === null || reading?.source !== 'resistance') return undefined
  const codes = conductorsThatFit(usable.c, usable.cspan ?? usable.span, conductorTemperatureC([reading], policy), policy.reference.okRel)
  return codes.length === 0 ? 'The conductor reading fits none of the table over this span.' : `The conductor reading fits ${codes.join(', ')}.`
}
