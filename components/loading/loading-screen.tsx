'use client'
import { useMemo, useRef } from 'react'
import calculator from '@/components/calculator/calculator.module.css'
import { useCircuits } from '@/components/operations/queries'
import { isInView } from '@/components/operations/view-of'
import { useNetworkState } from '@/components/ui/network-state'
import { PrintHead, type PrintFootProps } from '@/components/ui/print'
import type { Policy } from '@/lib/condition/policy'
import { boxOf, circuitsAsked, useLoading } from './address'
import { AnswerPane, MOST_CIRCUITS } from './answer-pane'
import { LoadingForm } from './form'
import { LoadingFoot } from './loading-foot'
import { LoadingHead } from './loading-head'
import { useJoints } from './queries'
import css from './loading.module.css'

/** How hot would the splices of a line be, and what would they allow? Reckoned in this browser with every move of a slider. */
export function LoadingScreen({ policy, mark, print }: { policy: Policy; mark: string; print: PrintFootProps }) {
  const { asked, put } = useLoading()
  const state = useNetworkState()
  const version = state.data?.data_version
  const circuits = useCircuits(version)
  const { ids, unknown } = useMemo(() => circuitsAsked(asked.circuit, circuits.data ?? NO_CIRCUITS), [asked.circuit, circuits.data])
  const inputs = useMemo(() => ({ ...asked, circuit: ids.length === 0 ? null : ids }), [asked, ids])
  const onMap = useMemo(() => {
    const box = boxOf(inputs.bbox)
    return box && circuits.data ? circuits.data.filter(({ bbox }) => bbox && isInView({ lon: bbox[0], lat: bbox[1], bbox }, box)).map(({ id }) => id) : null
  }, [inputs.bbox, circuits.data])
  const wanted = useMemo(() => (inputs.circuit?.length ? inputs.circuit : onMap ?? []).slice(0, MOST_CIRCUITS), [inputs.circuit, onMap])
  const joints = useJoints(wanted, version)
  const answerAt = useRef<HTMLDivElement>(null)
  return (
    <div className={calculator.screen}>
      <PrintHead mark={mark} />
      <LoadingHead title="Loading">
        How hot the splices of a line would be at a current and in a weather, and what they would allow. Worked out on this page; nothing is stored.
      </LoadingHead>
      <div className={css.beside}>
        <div className={`${css.question} no-print`}>
          <LoadingForm inputs={inputs} put={put} policy={policy} circuits={circuits.data ?? NO_CIRCUITS} onMap={onMap?.length ?? null} />
        </div>
        <div className={css.answer} ref={answerAt}>
          <AnswerPane
            inputs={inputs}
            put={put}
            policy={policy}
            joints={joints}
            count={inputs.circuit?.length ?? onMap?.length ?? 0}
            unknown={circuits.data ? unknown : NO_NAMES}
            circuits={circuits.data}
            failed={circuits.error ?? state.error}
            answerAt={answerAt}
          />
        </div>
      </div>
      <LoadingFoot circuits={joints.data} print={print} />
    </div>
  )
}

const NO_CIRCUITS: never[] = []
const NO_NAMES: never[] = []
