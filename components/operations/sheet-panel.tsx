'use client'
import Link from 'next/link'
import { useDeferredValue, type ReactNode } from 'react'
import { CallSteps } from '@/components/calls/call-steps'
import { CircuitSheet } from '@/components/circuit/circuit-sheet'
import { pressingOf } from '@/components/health/health-rows'
import type { Selection } from '@/components/map/types'
import { readAssessment } from '@/components/splice/assessment'
import { firstDueMs } from '@/components/splice/due'
import { DecideAsEngineer } from '@/components/splice/decide-as-engineer'
import { LimitSteps } from '@/components/splice/limit-steps'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import { Button, IconButton } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { usePhaseLetters, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { PrintFoot, PrintHead, type Pressing } from '@/components/ui/print'
import { ErrorState, Skeleton } from '@/components/ui/states'
import type { SettingsJson } from '@/lib/contract/settings'
import { useCircuit, useSplice } from './queries'
import css from './screen.module.css'

export interface SheetPanelProps {
  selection: NonNullable<Selection>
  version: number | undefined
  nowMs: number
  onClose(): void
  onHide(): void
  /** Takes the map to what is selected; null where it is on screen already. */
  onShowOnMap: (() => void) | null
  onSelectSplice(id: number): void
  onSelectCircuit(id: number): void
  /** How paper is to be handled and whose it is; undefined until the settings are here. */
  paper: Pick<SettingsJson, 'information_mark' | 'utility_name'> | undefined
}

/** The title block at the side: the sheet of what is selected. */
export function SheetPanel({ selection, onClose, onHide, onShowOnMap, ...rest }: SheetPanelProps) {
  const shown = useDeferredValue(selection)
  const href = `/${shown.kind}s/${shown.id}`
  return (
    <aside
      className={css.sheet}
      onKeyDown={(e) => {
        // A dialog of the sheet stands elsewhere in the page and closes by itself.
        if (e.key === 'Escape' && e.currentTarget.contains(e.target as Node)) onClose()
      }}
      aria-label={shown.kind === 'splice' ? 'Splice sheet' : 'Circuit sheet'}>
      <div className={css.panelHead}>
        <Button asChild size="small" variant="quiet">
          <Link href={href}>Open the whole sheet</Link>
        </Button>
        <span>
          {onShowOnMap && (
            <Button size="small" variant="quiet" onClick={onShowOnMap}>
              Show on map
            </Button>
          )}
          <IconButton className={css.panelToggle} icon="panelRight" size="small" label="Hide the sheet" onClick={onHide} />
          <IconButton icon="close" size="small" label="Close the sheet" onClick={onClose} />
        </span>
      </div>
      <div className={css.sheetBody} tabIndex={0} role="region" aria-label="Sheet">
        {shown.kind === 'splice' ? <SplicePart id={shown.id} {...rest} /> : <CircuitPart id={shown.id} {...rest} />}
      </div>
    </aside>
  )
}

type PartProps = Omit<SheetPanelProps, 'selection' | 'onClose' | 'onHide' | 'onShowOnMap'> & { id: number }

function useWords() {
  const [system] = useUnitSystem()
  return { system, timeZone: useTimeZone(), letters: usePhaseLetters() }
}

function SplicePart({ id, version, nowMs, onSelectCircuit, paper }: PartProps) {
  const words = useWords()
  const splice = useSplice(id, version)
  if (splice.isError) return <Refused error={splice.error} retry={() => void splice.refetch()} />
  if (!splice.data) return <Bones />
  const decide = <DecideAsEngineer key={id} detail={splice.data} />
  const steps = <LimitSteps key={`limit ${id}`} detail={splice.data} />
  const { class: shown, assessment } = splice.data
  return (
    <Paper
      of={paper} nowMs={nowMs} dueAtMs={firstDueMs(readAssessment(assessment)?.nextActions ?? [], splice.data, nowMs)}
      pressing={{ critical: Number(shown === 'critical'), urgent: Number(shown === 'urgent') }}>
      <SpliceSheet detail={splice.data} nowMs={nowMs} {...words} decide={decide} limitSteps={steps} callSteps={<CallSteps key={`call ${id}`} detail={splice.data} />} onSelectCircuit={onSelectCircuit} />
    </Paper>
  )
}

function CircuitPart({ id, version, nowMs, onSelectSplice, paper }: PartProps) {
  const words = useWords()
  const answer = useCircuit(id, version)
  if (answer.isError) return <Refused error={answer.error} retry={() => void answer.refetch()} />
  if (!answer.data) return <Bones />
  return (
    <Paper of={paper} nowMs={nowMs} pressing={pressingOf([answer.data.circuit])}>
      <CircuitSheet circuit={answer.data.circuit} health={answer.data.health} nowMs={nowMs} {...words} onSelectSplice={onSelectSplice} />
    </Paper>
  )
}

/** What every paper carries, around the sheet: the browser's own printing takes this page's sheet and not its map. */
function Paper({ of, nowMs, dueAtMs, pressing, children }: { of: SheetPanelProps['paper']; nowMs: number; dueAtMs?: number; pressing: Pressing; children: ReactNode }) {
  return (
    <>
      <PrintHead mark={of?.information_mark ?? ''} />
      {children}
      <PrintFoot utility={of?.utility_name ?? ''} askedAtMs={nowMs} dueAtMs={dueAtMs} pressing={pressing} />
    </>
  )
}

function Refused({ error, retry }: { error: unknown; retry(): void }): ReactNode {
  return (
    <ErrorState
      small
      {...asSentences(error)}
      action={
        <Button size="small" onClick={retry}>
          Try again
        </Button>
      }
    />
  )
}

const Bones = () => (
  <div className={css.bones} aria-busy="true">
    <Skeleton width={120} />
    <Skeleton width={220} height={28} />
    <Skeleton height={64} />
    <Skeleton height={96} />
    <Skeleton height={140} />
  </div>
)
