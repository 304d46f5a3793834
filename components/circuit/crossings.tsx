import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import type { CircuitJson } from '@/lib/contract/api'
import { lineDistanceMeasure, type UnitSystem } from '@/lib/units/format'

/** What the line passes over: how many of each kind, and where along it. */
export function Crossings({ crossings, system }: { crossings: CircuitJson['crossings']; system: UnitSystem }) {
  if (crossings.length === 0) return <p className={css.note}>No crossing is on record.</p>
  return (
    <details>
      <summary>{crossingsText(crossings)}</summary>
      <ol className={css.facts}>
        {crossings.map((crossing) => (
          <li key={crossing.id} style={{ display: 'contents' }}>
            <Quantity {...lineDistanceMeasure(crossing.line_distance_m, system)} />
            <span>{[crossing.kind, crossing.name].filter(Boolean).join(', ')}</span>
          </li>
        ))}
      </ol>
    </details>
  )
}

/** '2 roads, 1 river'. */
export function crossingsText(crossings: readonly { kind: string }[]): string {
  const counts = new Map<string, number>()
  for (const { kind } of crossings) counts.set(kind, (counts.get(kind) ?? 0) + 1)
  const plural = (kind: string, n: number) => (n === 1 || kind === 'other' ? kind : `${kind}s`)
  return [...counts].map(([kind, n]) => `${n} ${plural(kind, n)}`).join(', ')
}
