'use client'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { asSentences, fetchJson } from '@/components/ui/fetch-json'
import sheet from '@/components/ui/sheet.module.css'
import { ErrorState, Skeleton } from '@/components/ui/states'
import { working } from '@/lib/contract/outlook'
import type { UnitSystem } from '@/lib/units/format'
import { WorkingSteps } from './working-steps'
import css from './working.module.css'

interface Props {
  spliceId: number
  /** Asked for again where the splice was assessed anew. */
  assessedAt: string | null
  system: UnitSystem
}

/** Show the working: every formula with its values and sources, to be checked by hand. What is open is printed, on paper of its own. */
export function Working({ spliceId, assessedAt, system }: Props) {
  const [open, setOpen] = useState(false)
  return (
    <details className={css.working} data-open={open} onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>Show the working</summary>
      {open && <Steps spliceId={spliceId} assessedAt={assessedAt} system={system} />}
    </details>
  )
}

function Steps({ spliceId, assessedAt, system }: Props) {
  const answer = useQuery({
    queryKey: ['working', spliceId, assessedAt],
    queryFn: ({ signal }) => fetchJson(`/api/v1/splices/${spliceId}/working`, working, { signal }),
  })
  if (answer.isError) return <ErrorState small {...asSentences(answer.error)} />
  if (!answer.data) return <Skeleton height={120} />
  const { steps, engine_version: engine, policy_version: policy } = answer.data
  if (steps.length === 0) return <p className={sheet.note}>No reading of this splice gives a ratio yet, so there is nothing to work out.</p>
  return (
    <>
      <p className={sheet.small}>In SI units, under policy {policy}, by engine {engine}. Errors are standard errors.</p>
      <WorkingSteps steps={steps} system={system} />
    </>
  )
}
