'use client'
import { firstDueMs } from '@/components/splice/due'
import { PrintFoot, type PrintFootProps } from '@/components/ui/print'
import type { CircuitJointsJson } from '@/lib/contract/loading'

/** The paper lapses by the first thing that falls due of any splice on it, as the splice's own sheet would. */
export function LoadingFoot({ circuits, print }: { circuits: readonly CircuitJointsJson[] | undefined; print: PrintFootProps }) {
  return <PrintFoot {...print} dueAtMs={circuits && firstDueOf(circuits, print.askedAtMs)} />
}

/** ms; undefined where nothing on the page falls due. */
export function firstDueOf(circuits: readonly CircuitJointsJson[], nowMs: number): number | undefined {
  const due = circuits.flatMap(({ joints }) => joints).flatMap(({ response }) => {
    if (!response) return []
    const { actions, next_reading_due_at, ...clocks } = response
    return firstDueMs(actions, { ...clocks, outlook: { next_reading_due_at } }, nowMs) ?? []
  })
  return due.length === 0 ? undefined : Math.min(...due)
}
