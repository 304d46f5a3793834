'use client'
import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import { DialogForm } from '@/components/ui/dialog-form'
import { fetchJson, sending } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import { useUnitSystem } from '@/components/ui/preferences'
import { useWritten } from '@/components/ui/use-written'
import type { SpliceDetail } from '@/lib/contract/contract'
import { currentLimit, type CurrentLimitJson } from '@/lib/contract/limits'
import { formatAllowed } from '@/lib/units/format'
import { LIMIT_CAUTION } from '@/lib/condition/words'
import { spell } from '@/lib/units/spelling'

interface Question {
  name: string; label: string; hint: string; number?: true; day?: true; initial?: string
  /** Asked, and then needed, only while the current proposed is above this, A per phase. */
  aboveA?: number
}
type Values = Readonly<Record<string, string>>
interface Step { label: string; verb: string; questions: Question[]; url: string; fixed: Record<string, string> }

/** What can be done with the limit of a splice now: propose one, or bring the open one a step further, or lift it. */
export function LimitSteps({ detail }: { detail: Pick<SpliceDetail, 'id' | 'limits' | 'outlook' | 'splice'> }) {
  const open = detail.limits.find(({ standing }) => standing !== 'lifted')
  const steps = open ? stepsOf(open) : [proposal(detail)]
  return (
    <>
      {steps.map((step) => (
        <StepDialog key={step.label} step={step} splice={detail.splice} />
      ))}
    </>
  )
}

export function proposal({ id, outlook }: Pick<SpliceDetail, 'id' | 'outlook'>): Step {
  const advisedA = outlook?.limit?.line_a
  const advice = advisedA === undefined ? 'No figure is advised: ask the rating engineer.' : `Advised: ${formatAllowed(advisedA)}.`
  return {
    label: 'Propose a limit', verb: 'Propose', url: `/api/v1/splices/${id}/limits`, fixed: {}, questions: [
      {
        name: 'line_a', label: 'Line current per phase, A', hint: `${advice} Never above the section’s rating.`, number: true,
        initial: advisedA === undefined ? '' : String(Math.floor(advisedA)),
      },
      { name: 'proposed_by', label: 'Proposed by', hint: 'By name; somebody else agrees.' },
      ...(advisedA === undefined ? [] : [{
        name: 'above_advised_why', label: `Why more than the advised ${formatAllowed(advisedA)}`, hint: 'It stands with the reason on the register.', aboveA: advisedA,
      }]),
      { name: 'reason', label: 'Reason', hint: 'What was found.' },
      { name: 'review_by', label: 'Review by', hint: 'Empty: after the days that the policy sets, and no later than the repair is due.', day: true },
    ],
  }
}

/** The next steps of an open limit. One that nobody has accepted binds nobody: it is withdrawn, not lifted. */
export function stepsOf(open: CurrentLimitJson): Step[] {
  const url = `/api/v1/limits/${open.id}`
  const binds = open.accepted_at !== null
  const lift: Step = {
    label: binds ? 'Lift it' : 'Withdraw it', verb: binds ? 'Lift the limit' : 'Withdraw the proposal', url, fixed: { step: 'lift' }, questions: [
      { name: 'lifted_by', label: binds ? 'Lifted by' : 'Withdrawn by', hint: 'By name.' },
      { name: 'why', label: 'Why', hint: binds ? 'What was repaired, measured or decided.' : 'What was wrong with it, or what came instead.' },
    ],
  }
  if (open.standing === 'proposed') {
    const agree: Step = {
      label: 'Agree as rating engineer', verb: 'Agree', url, fixed: { step: 'agree' },
      questions: [{ name: 'agreed_by', label: 'Rating engineer', hint: `By name; not ${open.proposed_by}, who proposed it.` }],
    }
    return [agree, lift]
  }
  if (open.standing === 'agreed') {
    const accept: Step = {
      label: 'Accept as operator', verb: 'Accept', url, fixed: { step: 'accept' }, questions: [
        { name: 'accepted_by', label: 'Operator', hint: 'By name.' },
        { name: 'read_back_a', label: 'Read back, A per phase', hint: 'The figure as it was read back.', number: true },
      ],
    }
    return [accept, lift]
  }
  return [lift]
}

function StepDialog({ step, splice }: { step: Step; splice: string }) {
  const [system] = useUnitSystem()
  const [open, setOpen] = useState(false)
  return (
    <Dialog open={open} onOpenChange={setOpen} trigger={<Button size="small">{step.label}</Button>} title={`${step.label}: ${splice}`} description={spell(LIMIT_CAUTION, system)}>
      {open && <StepForm step={step} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}

/** What is asked now: why it is to be above the advised figure only where it is. */
export const asked = (questions: readonly Question[], values: Values): Question[] =>
  questions.filter(({ aboveA }) => aboveA === undefined || Number(values.line_a) > aboveA)

/** The body of the step: the answers to what is asked now. */
export const bodyOf = ({ fixed, questions }: Pick<Step, 'fixed' | 'questions'>, values: Values): Record<string, string | number> =>
  ({ ...fixed, ...Object.fromEntries(asked(questions, values).flatMap((question) => answerOf(question, values[question.name]?.trim() ?? ''))) })

/** As it is sent; a day that nobody gave is left to the policy. */
function answerOf({ name, number, day }: Question, value: string): [string, string | number][] {
  if (day) return value === '' ? [] : [[name, new Date(value).toISOString()]]
  return [[name, number ? Number(value) : value]]
}

function StepForm({ step, onDone }: { step: Step; onDone(): void }) {
  const [values, setValues] = useState<Record<string, string>>(() => Object.fromEntries(step.questions.map(({ name, initial = '' }) => [name, initial])))
  const [tried, setTried] = useState(false)
  const questions = asked(step.questions, values)
  const written = useWritten()
  const usable = ({ name, number, day }: Question): boolean => {
    const value = values[name]?.trim() ?? ''
    if (day) return true // a day that is over is refused with its remedy
    return value !== '' && (number === undefined || Number(value) > 0)
  }
  const take = useMutation({
    mutationFn: () => fetchJson(step.url, currentLimit, sending('POST', bodyOf(step, values))),
    onSuccess: () => {
      onDone()
      written()
    },
  })
  return (
    <DialogForm
      verb={step.verb}
      busy={take.isPending}
      failed={take.error}
      onSubmit={() => {
        setTried(true)
        if (questions.every(usable)) take.mutate()
      }}>
      {questions.map((question) => (
        <Field
          key={question.name}
          label={question.label}
          hint={question.hint}
          required={!question.day}
          type={question.day ? 'date' : undefined}
          maxLength={question.name === 'reason' ? 1700 : question.name === 'why' ? 2000 : 200}
          inputMode={question.number ? 'decimal' : undefined}
          value={values[question.name] ?? ''}
          onChange={(e) => setValues({ ...values, [question.name]: e.target.value })}
          error={tried && !usable(question) ? (question.number ? 'Enter a number of amperes.' : 'This is needed.') : undefined}
        />
      ))}
    </DialogForm>
  )
}
