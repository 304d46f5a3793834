'use client'
import { useEffect, useRef, useState, type ReactNode, type RefObject } from 'react'
import type { MapView } from '@/components/map/types'
import { useUnitSystem } from '@/components/ui/preferences'
import type { ReviewItem } from '@/lib/contract/contract'
import type { PlacementDecision } from '@/lib/contract/intake'
import { asDecision, decide, declaredPhase, lacksReason, moved, newDecision, stepM, type DecisionChange, type Position } from './decision'
import { DecisionPanel } from './decision-panel'
import type { ReviewCommand } from './keys'
import { ReviewMap } from './review-map'
import { canTakeBack, SettledPanel } from './settled-panel'
import { useReviewKeys } from './use-review-keys'
import css from './panel.module.css'

/** One reading on the desk: its map and its panel. Mounted anew for every reading. */
export function ItemDesk({
  item,
  view,
  onView,
  onDecide,
  onTakeBack,
  onStep,
  onUndo,
  onLegend,
  onHideKeys,
  oneColumn,
  notice,
  takeFocus,
  quietUntilRef,
}: {
  item: ReviewItem
  view: MapView | null
  onView(view: MapView): void
  onDecide(decision: PlacementDecision): void
  onTakeBack(): void
  onStep(by: 1 | -1): void
  onUndo: (() => void) | null
  onLegend(): void
  /** Whether the keys were shown until now. */
  onHideKeys(): boolean
  /** What the decision rests on comes before it, the map among it. */
  oneColumn: boolean
  notice: ReactNode
  /** The reading before it was left by a key or a button that is gone: the heading takes the focus, so that Tab goes on from here. */
  takeFocus: boolean
  /** Until when keys still belong to a reason that was typed for the reading before. */
  quietUntilRef: RefObject<number>
}) {
  const [system] = useUnitSystem()
  const [draft, setDraft] = useState(() => newDecision(item))
  const waits = item.reading.placement.state === 'review'
  const change = (c: DecisionChange) => setDraft((d) => decide(d, c, item))
  const accept = () => {
    const sayable = asDecision(draft, item)
    if (sayable.ready) onDecide(sayable.decision)
    return sayable.ready
  }
  const reject = () => {
    if (lacksReason(draft, item)) return
    onDecide({ action: 'reject', ...(draft.reason.trim() === '' ? {} : { reason: draft.reason.trim() }) })
  }
  const move = () => {
    const from = markStart(item, draft.candidate, view)
    if (from) change({ type: 'move', from })
    return from !== null
  }

  const run = (command: ReviewCommand): boolean => {
    switch (command.do) {
      case 'next':
        onStep(1)
        return true
      case 'previous':
        onStep(-1)
        return true
      case 'undo':
        onUndo?.()
        return onUndo !== null
      case 'legend':
        onLegend()
        return true
      case 'take-back':
        if (canTakeBack(item)) onTakeBack()
        return canTakeBack(item)
      case 'cancel':
        return (waits && runDecision(command)) || onHideKeys()
      default:
        return waits && runDecision(command)
    }
  }
  const runDecision = (command: ReviewCommand): boolean => {
    switch (command.do) {
      case 'accept':
        return !draft.rejecting && accept()
      case 'reject':
        change({ type: 'reject' })
        return true
      case 'cancel':
        change({ type: 'cancel' })
        return draft.moving || draft.rejecting || draft.mark !== null
      case 'move':
        return move()
      case 'splice':
        change({ type: 'next-splice' })
        return true
      case 'new-splice':
        change({ type: 'splice', splice: 'new' })
        return true
      case 'candidate':
        change({ type: 'candidate', index: command.index })
        return command.index < item.candidates.length
      case 'phase':
        // What the reading declares is not overruled by a key that nothing on the screen shows.
        if (declaredPhase(item) === null) change({ type: 'phase', phase: command.phase })
        return declaredPhase(item) === null
      case 'nudge': {
        const step = stepM(system, command.big)
        if (draft.mark) change({ type: 'mark', mark: moved(draft.mark, command.east * step, command.north * step) })
        return draft.mark !== null
      }
      default:
        return false
    }
  }
  const desk = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (takeFocus && document.activeElement === document.body) desk.current?.querySelector<HTMLElement>('h2')?.focus()
  }, [takeFocus])
  useReviewKeys(draft.moving || draft.mark !== null, run, quietUntilRef)

  const map = (
    <ReviewMap
      item={item}
      draft={waits ? draft : null}
      view={view}
      onView={onView}
      onChange={(c) => {
        if (waits) change(c)
      }}
    />
  )

  return (
    <>
      {!oneColumn && map}
      <div ref={desk} className={css.panelHolder}>
        {waits ? (
          <DecisionPanel
            item={item}
            draft={draft}
            map={oneColumn ? map : null}
            notice={oneColumn && notice}
            onChange={change}
            onAccept={accept}
            onReject={reject}
            onMove={move}
            onFound={(mark, circuits) => {
              change({ type: 'found', mark, circuits })
              if (view !== null) onView({ ...view, ...mark })
            }}
          />
        ) : (
          <SettledPanel item={item} map={oneColumn ? map : null} notice={oneColumn && notice} onTakeBack={onTakeBack} />
        )}
      </div>
    </>
  )
}

/** The mark begins at the chosen candidate, else where it was read, else in the middle of the map. */
function markStart(item: ReviewItem, candidate: number | null, view: MapView | null): Position | null {
  const chosen = candidate === null ? undefined : item.candidates[candidate]
  if (chosen) return { lon: chosen.lon, lat: chosen.lat }
  const { lon, lat } = item.reading
  if (lon !== null && lat !== null) return { lon, lat }
  return view === null ? null : { lon: view.lon, lat: view.lat }
}
