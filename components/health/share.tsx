import type { CSSProperties } from 'react'
import { Quantity } from '@/components/ui/states'
import { percentMeasure } from '@/lib/units/format'
import css from './share.module.css'

/** A share as a figure and as a bar that starts where the others start; what counts no longer follows it, hatched. */
export function Share({ share, older = 0 }: { share: number | null; older?: number }) {
  if (share === null) return <span className="muted">–</span>
  return (
    <span className={css.share}>
      <Quantity {...percentMeasure(share)} />
      <i style={{ '--w': `${share * 100}%`, '--o': `${(share + older) * 100}%` } as CSSProperties} aria-hidden="true" />
    </span>
  )
}
