'use client'
import { memo, useMemo, type RefObject } from 'react'
import Link from 'next/link'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { EmptyState, ErrorState, Skeleton } from '@/components/ui/states'
import type { Policy } from '@/lib/condition/policy'
import type { CircuitSummary } from '@/lib/contract/contract'
import type { LoadingInputs, PutLoading } from './address'
import { answerOf, faultOf } from './answer'
import { lineSections } from './line-model'
import { LoadingResult } from './loading-result'
import { Peek } from './peek'
import type { useJoints } from './queries'
import { limitText, passText } from './words'
import css from './loading.module.css'

/** More plots than a person compares; past it the page asks for a choice. */
export const MOST_CIRCUITS = 24

interface Props {
  inputs: LoadingInputs
  put: PutLoading
  policy: Policy
  joints: ReturnType<typeof useJoints>
  /** How many circuits are asked for; as many as fit are here. */
  count: number
  /** Names or ids of the address that no circuit has. */
  unknown: readonly string[]
  /** The worst first; undefined until they are here. */
  circuits: readonly CircuitSummary[] | undefined
  failed: unknown
  answerAt: RefObject<HTMLElement | null>
}

/** What is asked, answered; or why not, and the one thing to do first. */
export const AnswerPane = memo(function AnswerPane({ inputs, put, policy, joints, count, unknown, circuits, failed, answerAt }: Props) {
  const [system] = useUnitSystem()
  const timeZone = useTimeZone()
  const sections = useMemo(() => (joints.data && circuits ? lineSections(joints.data, policy) : null), [joints.data, circuits, policy])
  const fault = faultOf(inputs, policy, system)
  const answer = useMemo(() => (sections && fault === undefined ? answerOf(sections, inputs, policy) : null), [sections, inputs, policy, fault])
  const [first] = circuits ?? []
  if (failed ?? joints.error) {
    return <ErrorState {...asSentences(failed ?? joints.error)} action={<Button onClick={joints.retry}>Try again</Button>} />
  }
  if (circuits?.length === 0) {
    return (
      <EmptyState title="No line is known yet" action={<Button asChild><Link href="/intake">Import lines</Link></Button>}>
        Import lines, splices and readings first; then this page shows how hot each splice would be at a load.
      </EmptyState>
    )
  }
  if (count === 0 && circuits) {
    return (
      <EmptyState
        title={unknown.length === 0 ? 'Choose a circuit' : `No circuit is called ${unknown.join(', ')}`}
        action={first && <Button onClick={() => put({ circuit: [first.id], bbox: null })}>Show circuit {first.name}, most urgent and critical</Button>}>
        The page then shows each of its splices along the line with the temperature it would have, and the one that limits the circuit.
      </EmptyState>
    )
  }
  if (fault !== undefined) return <p className={css.banner} role="status">{fault}</p>
  if (answer === null) {
    return (
      <div className={css.bones}>
        <Skeleton height={28} width="40%" />
        <Skeleton height={268} />
        <Skeleton height={160} />
      </div>
    )
  }
  return (
    <>
      {unknown.length > 0 && <p className={css.banner}>No circuit is called {unknown.join(', ')}: choose it by its name as imported.</p>}
      {count > MOST_CIRCUITS && (
        <p className={css.banner}>
          {MOST_CIRCUITS} of {count} circuits are shown. Choose fewer, or move closer on the map.
        </p>
      )}
      <LoadingResult answer={answer} inputs={inputs} policy={policy} />
      <Peek answer={answerAt}>{answer.lead ? limitText(answer.lead, answer.rating, policy, system) : passText(answer, inputs.load, policy, system, timeZone)}</Peek>
    </>
  )
})
