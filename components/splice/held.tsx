import type { ReactNode } from 'react'
import css from '@/components/ui/sheet.module.css'
import type { HeldFinding, SpliceDetail } from '@/lib/contract/contract'
import { heldWords } from './held-words'

interface Props {
  detail: SpliceDetail & { hold: HeldFinding }
  edges: number[]
  timeZone: string
  /** Where an engineer decides. */
  decide?: ReactNode
}

/** A class never falls from urgent or critical by itself: what holds it, what came after, and what would clear it. */
export function Held({ detail, edges, timeZone, decide }: Props) {
  const { finding, since, needed } = heldWords(detail, edges, timeZone)
  return (
    <div className={css.boxed} role="note">
      <p>
        <strong>{finding}</strong>
      </p>
      <p>{since}</p>
      <p>{needed}</p>
      {decide && <p className={`${css.row} no-print`}>{decide}</p>}
    </div>
  )
}
