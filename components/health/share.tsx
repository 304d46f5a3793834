import type { CSSProperties } from 'react'
import { Quantity } from '@/components/ui/states'
import { percentMeasure } from '@/lib/units/format'
import css from './share.module.css'

/** A share as a figure and as a bar that starts where the others start. */
export function Share({ share }: { share: number | null }) {
  if (share === null) return <span className="muted">–</span>
  return (
    <span className={css.share}>
      <Quantity {...percentMeasure(share)} />
      <i style={{ '--w': `${share * 100}%` } as CSSProperties} aria-hidden="true" />
    </span>
  )
}
