import type { CSSProperties } from 'react'
import { cx } from '@/components/ui/class-names'
import { Quantity } from '@/components/ui/states'
import { percentMeasure } from '@/lib/units/format'
import css from './share.module.css'

/** A share as a figure and as a bar that starts where the others start; what counts no longer follows it, hatched. A quiet one, which proves nothing, is hatched whole. */
export function Share({ share, older = 0, quiet = false }: { share: number | null; older?: number; quiet?: boolean }) {
  if (share === null) return <span className="muted">–</span>
  return (
    <span className={cx(css.share, quiet && css.quiet)}>
      <Quantity {...percentMeasure(share)} />
      <i style={{ '--w': `${quiet ? 0 : share * 100}%`, '--o': `${(share + older) * 100}%` } as CSSProperties} aria-hidden="true" />
    </span>
  )
}
