'use client'
import Link from 'next/link'
import { useDeferredValue, type ReactNode } from 'react'
import { CircuitSheet } from '@/components/circuit/circuit-sheet'
import type { Selection } from '@/components/map/types'
import { DecideAsEngineer } from '@/components/splice/decide-as-engineer'
import { LimitSteps } from '@/components/splice/limit-steps'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import { Button, IconButton } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { usePhaseLetters, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { ErrorState, Skeleton } from '@/components/ui/states'
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

function SplicePart({ id, version, nowMs, onSelectCircuit }: PartProps) {
  const words = useWords()
  const splice = useSplice(id, version)
  if (splice.isError) return <Refused error={splice.error} retry={() => void splice.refetch()} />
  if (!splice.data) return <Bones />
  const decide = <DecideAsEngineer key={id} detail={splice.data} />
  const steps = <LimitSteps key={`limit ${id}`} detail={splice.data} />
  return <SpliceSheet detail={splice.data} nowMs={nowMs} {...words} decide={decide} limitSteps={steps} onSelectCircuit={onSelectCircuit} />
}

function CircuitPart({ id, version, nowMs, onSelectSplice }: PartProps) {
  const words = useWords()
  const answer = useCircuit(id, version)
  if (answer.isError) return <Refused error={answer.error} retry={() => void answer.refetch()} />
  if (!answer.data) return <Bones />
  return <CircuitSheet circuit={answer.data.circuit} health={answer.data.health} nowMs={nowMs} {...words} onSelectSplice={onSelectSplice} />
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
